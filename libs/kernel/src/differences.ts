import * as z from 'zod';

export const differenceType = z.enum(['added', 'removed', 'changed', 'moved']);

/** One difference between two versions: where it is (keys, and what identifies a member of a list), and what was there before and after. */
export interface Difference {
  readonly path: readonly string[];
  readonly type: z.infer<typeof differenceType>;
  readonly before: unknown;
  readonly after: unknown;
}

/** What tells the members of a list apart, first that is there: a step's or a point's key, a product, a material, an oven. */
const identities = ['key', 'product', 'material', 'oven'] as const;

/**
 * What differs between two versions of JSON-like content, in the order of the later one, then what is gone. Members of lists are matched by
 * what identifies them, so that a line put in at the top is one difference and not every line. Equal content gives none.
 */
export function differences(before: unknown, after: unknown, path: readonly string[] = []): Difference[] {
  if (Array.isArray(before) && Array.isArray(after)) return ofLists(before, after, path);
  if (isObject(before) && isObject(after)) return ofMembers(new Map(Object.entries(before)), new Map(Object.entries(after)), path);
  return Object.is(before, after) ? [] : [{ path, type: 'changed', before, after }];
}

function ofLists(before: readonly unknown[], after: readonly unknown[], path: readonly string[]): Difference[] {
  const [a, b] = [membersOf(before), membersOf(after)];
  const found = ofMembers(a, b, path);
  const kept = (these: ReadonlyMap<string, unknown>, those: ReadonlyMap<string, unknown>): string[] =>
    [...these.keys()].filter((key) => those.has(key));
  const [orderBefore, orderAfter] = [kept(a, b), kept(b, a)];
  const moved = orderBefore.some((key, i) => key !== orderAfter[i]);
  return moved ? [...found, { path, type: 'moved', before: orderBefore, after: orderAfter }] : found;
}

function ofMembers(before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>, path: readonly string[]): Difference[] {
  const now = [...after].flatMap(([key, value]): Difference[] =>
    before.has(key)
      ? differences(before.get(key), value, [...path, key])
      : [{ path: [...path, key], type: 'added', before: undefined, after: value }],
  );
  const gone = [...before]
    .filter(([key]) => !after.has(key))
    .map(([key, value]): Difference => ({
      path: [...path, key],
      type: 'removed',
      before: value,
      after: undefined,
    }));
  return [...now, ...gone];
}

/** Members of a list by what identifies them; a second one of the same is "… (2)". Plain values identify themselves. */
export function membersOf(list: readonly unknown[]): Map<string, unknown> {
  const members = new Map<string, unknown>();
  const seen = new Map<string, number>();
  for (const member of list) {
    const identity = identityOf(member);
    let count = (seen.get(identity) ?? 0) + 1;
    while (members.has(numbered(identity, count))) count += 1; // somebody may have called another one "… (2)"
    seen.set(identity, count);
    members.set(numbered(identity, count), member);
  }
  return members;
}

const numbered = (identity: string, count: number): string => (count === 1 ? identity : `${identity} (${count})`);

function identityOf(member: unknown): string {
  const key = isObject(member) ? identities.map((i) => member[i]).find((v) => typeof v === 'string') : undefined;
  return typeof key === 'string' ? key : JSON.stringify(member);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
