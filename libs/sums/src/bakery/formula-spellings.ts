import { changed, isFields, isShortList, lifted, renamed, type Fields } from '../spellings.js';

const inner = { parts: 'preferment', ingredients: 'preferment', lines: 'preferment' };

/** The list of parts in a preferment that is written as { ingredients }, { parts } or { lines }. */
function partsIn(preferment: unknown): unknown {
  if (!isFields(preferment)) return preferment;
  const found = ['ingredients', 'parts', 'lines'].find((name) => Object.hasOwn(preferment, name));
  return found === undefined || Object.keys(preferment).some((name) => name !== found && name !== 'name') ? preferment : preferment[found];
}

/** A line with its parts under any of their names; a line that has parts is not flour itself. */
function lineRead(line: unknown): unknown {
  if (!isFields(line)) return line;
  const { preferment, ...rest } = line;
  const marked = preferment === true && Object.keys(inner).some((name) => Object.hasOwn(rest, name)) ? rest : line;
  const named = changed(renamed(marked, inner), 'preferment', partsIn);
  return Array.isArray(named['preferment']) ? { flour: false, ...named } : named;
}

const sameName = (a: unknown, b: unknown): boolean =>
  typeof a === 'string' && typeof b === 'string' && a.trim().toLowerCase() === b.trim().toLowerCase();

/** Preferments that are listed apart from the lines: each goes to the line of its name, or becomes a line that weighs what its parts weigh. */
function joined(lines: readonly unknown[], preferments: readonly unknown[]): unknown[] | null {
  const out = [...lines];
  for (const one of preferments.map(lineRead)) {
    if (!isFields(one) || !Array.isArray(one['preferment'])) return null;
    const parts: readonly unknown[] = one['preferment'];
    const place = out.findIndex((line) => isFields(line) && sameName(line['name'], one['name']));
    const line = out[place];
    if (isFields(line)) {
      if (Array.isArray(line['preferment'])) return null;
      out[place] = { flour: false, ...line, preferment: parts };
      continue;
    }
    const grams = parts.map((part) => (isFields(part) && typeof part['grams'] === 'number' ? part['grams'] : NaN));
    out.push({ grams: grams.reduce((sum, weight) => sum + weight, 0), ...one });
  }
  return out;
}

/** A formula under `formula`, as a list or with `ingredients` and `preferments`; parts of a preferment by any of their names; `to` for the amount wanted. */
export function alsoReads(raw: Fields): Fields {
  const opened = lifted(renamed(lifted(raw, 'to'), isFields(raw['formula']) ? {} : { formula: 'ingredients' }), 'formula');
  const named = renamed(opened, { lines: 'ingredients', scalingWeightGrams: 'scalingGrams', pieceGrams: 'scalingGrams' });
  const read = changed(named, 'ingredients', (lines) => (isShortList(lines) ? lines.map(lineRead) : lines));
  const { preferments, ...rest } = read;
  if (!isShortList(preferments) || !isShortList(rest['ingredients'])) return read;
  const lines = joined(rest['ingredients'], preferments);
  return lines === null ? read : { ...rest, ingredients: lines };
}
