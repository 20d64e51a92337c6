import { changed, isFields, isShortList, renamed, type Fields } from '../spellings.js';

const regimes: Readonly<Record<string, string>> = { uk: 'gb' };
const regimeRead = (word: unknown): unknown => {
  const key = typeof word === 'string' ? word.trim().toLowerCase() : word;
  return typeof key === 'string' && Object.hasOwn(regimes, key) ? regimes[key] : key;
};

/** A line, or a part of one, under other names of its fields; to the depth that lines can have. */
function lineRead(line: unknown, depth: number): unknown {
  if (!isFields(line) || depth === 0) return line;
  const named = renamed(line, { ingoingGrams: 'grams', compoundParts: 'parts', ingredients: 'parts' });
  return changed(named, 'parts', (parts) => (isShortList(parts) ? parts.map((part) => lineRead(part, depth - 1)) : parts));
}

/** An ingredient list under other names of its fields, and the regime in capitals or as UK. */
export function alsoReads(raw: Fields): Fields {
  const lines = changed(renamed(raw, { ingredients: 'lines' }), 'lines', (all) =>
    isShortList(all) ? all.map((line) => lineRead(line, 3)) : all,
  );
  return changed(lines, 'regime', regimeRead);
}

/** The declared ingredients out of a list of all, each marked whether it is declared. */
export function declaredOnly(raw: Fields): Fields {
  const named = renamed(raw, { ingredients: 'declared', declaredIngredients: 'declared' });
  return changed(named, 'declared', (lines) => {
    if (!isShortList(lines)) return lines;
    const kept = lines.filter((line) => !isFields(line) || line['declared'] !== false);
    return kept.map((line) => {
      if (!isFields(line) || line['declared'] !== true) return line;
      const { declared: _declared, ...rest } = line;
      return rest;
    });
  });
}

/** Makes that say themselves that they must be last, a single name for a list of one, and costs as a table by name. */
export function sequenceRead(raw: Fields): Fields {
  const costed = renamed(raw, { cost: typeof raw['cost'] === 'number' ? 'cleanDownCost' : 'costs' });
  const listed = changed(costed, 'costs', costsByName);
  const last = changed(listed, 'mustBeLast', (names) => (typeof names === 'string' ? [names] : names));
  const makes = last['makes'];
  if (!isShortList(makes) || Object.hasOwn(last, 'mustBeLast')) return last;
  if (!makes.some((make) => isFields(make) && typeof make['mustBeLast'] === 'boolean')) return last;
  const named = makes.flatMap((make) => (isFields(make) && make['mustBeLast'] === true ? [make['name']] : []));
  return { ...last, mustBeLast: named, makes: makes.map(unmarked) };
}

function unmarked(make: unknown): unknown {
  if (!isFields(make) || typeof make['mustBeLast'] !== 'boolean') return make;
  const { mustBeLast: _mark, ...rest } = make;
  return rest;
}

function costsByName(costs: unknown): unknown {
  if (!isFields(costs)) return costs;
  return Object.entries(costs)
    .slice(0, 1000)
    .flatMap(([from, row]): unknown[] => (isFields(row) ? Object.entries(row).map(([to, cost]) => ({ from, to, cost })) : [row]));
}
