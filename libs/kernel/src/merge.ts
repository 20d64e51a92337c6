import { membersOf, type Difference, differences } from './differences.js';

/** What both changed, and differently: one's own stands in the merged text until somebody chooses. */
export interface Clash {
  readonly path: readonly string[];
  readonly base: unknown;
  readonly mine: unknown;
  readonly theirs: unknown;
}
export interface Merged {
  readonly value: unknown;
  readonly clashes: readonly Clash[];
}

/**
 * Puts two people's changes of one JSON-like text together: what one alone changed is taken from them, member by member of objects and of lists
 * whose members have something that identifies them. Where both changed the same, differently, mine stands and a clash says so. `undefined` is "not there".
 */
export function merge(base: unknown, mine: unknown, theirs: unknown, path: readonly string[] = []): Merged {
  if (same(mine, theirs) || same(theirs, base)) return { value: mine, clashes: [] };
  if (same(mine, base)) return { value: theirs, clashes: [] };
  if (isObject(mine) && isObject(theirs)) return ofObjects(isObject(base) ? base : {}, mine, theirs, path);
  if (Array.isArray(mine) && Array.isArray(theirs)) return ofLists(Array.isArray(base) ? base : [], mine, theirs, path);
  return { value: mine === undefined ? theirs : mine, clashes: [{ path, base, mine, theirs }] };
}

/** The places of mine that theirs have in common, one inside the other counted too. */
export function overlapping(mine: readonly Difference[], theirs: readonly Difference[]): string[][] {
  const upTo = (path: readonly string[]): string[] =>
    Array.from({ length: path.length + 1 }, (_, length) => JSON.stringify(path.slice(0, length)));
  const exact = new Set(theirs.map((t) => JSON.stringify(t.path)));
  const above = new Set(theirs.flatMap((t) => upTo(t.path)));
  return mine.filter((m) => above.has(JSON.stringify(m.path)) || upTo(m.path).some((place) => exact.has(place))).map((m) => [...m.path]);
}

function ofObjects(
  base: Readonly<Record<string, unknown>>,
  mine: Readonly<Record<string, unknown>>,
  theirs: Readonly<Record<string, unknown>>,
  path: readonly string[],
): Merged {
  const keys = [...new Set([...Object.keys(theirs), ...Object.keys(mine)])];
  const merged = keys.map((key) => [key, merge(own(base, key), own(mine, key), own(theirs, key), [...path, key])] as const);
  return {
    value: Object.fromEntries(merged.flatMap(([key, { value }]) => (value === undefined ? [] : [[key, value]]))),
    clashes: merged.flatMap(([, { clashes }]) => clashes),
  };
}

/** In the order of the side that changed the order (mine, where both did), with the other side's additions after their predecessors. */
function ofLists(base: readonly unknown[], mine: readonly unknown[], theirs: readonly unknown[], path: readonly string[]): Merged {
  const [was, my, their] = [membersOf(base), membersOf(mine), membersOf(theirs)];
  const ordered = (list: ReadonlyMap<string, unknown>): string[] => [...list.keys()].filter((key) => was.has(key));
  const mineMoved = !same(
    ordered(my),
    [...was.keys()].filter((key) => my.has(key)),
  );
  const order = mineMoved ? woven([...my.keys()], [...their.keys()]) : woven([...their.keys()], [...my.keys()]);
  const merged = order.map((key) => merge(was.get(key), my.get(key), their.get(key), [...path, key]));
  return { value: merged.flatMap(({ value }) => (value === undefined ? [] : [value])), clashes: merged.flatMap(({ clashes }) => clashes) };
}

function woven(first: readonly string[], second: readonly string[]): string[] {
  const all = [...first];
  second.forEach((key, i) => {
    if (first.includes(key)) return;
    const before = second[i - 1];
    all.splice(before === undefined ? 0 : all.indexOf(before) + 1, 0, key);
  });
  return all;
}

const own = (of: Readonly<Record<string, unknown>>, key: string): unknown => (Object.hasOwn(of, key) ? of[key] : undefined);
const same = (a: unknown, b: unknown): boolean => differences(a, b).length === 0;
const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
