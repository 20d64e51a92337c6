export type Path = readonly (string | number)[];

/** A place in a JSON value by the step that leads to it: a path is written out only where it is wanted, for a value may be hundreds of levels deep. */
interface Step {
  readonly key: string | number;
  readonly value: unknown;
  readonly from: Step | null;
}

/** Every value inside a JSON value; of a list the first member alone. */
function stepsOf(value: unknown): Step[] {
  const steps: Step[] = [];
  const under = (from: Step | null, inner: unknown): void => {
    const members = Array.isArray(inner)
      ? inner.slice(0, 1).map((one, i) => [i, one] as const)
      : typeof inner === 'object' && inner !== null
        ? Object.entries(inner)
        : [];
    for (const [key, one] of members) {
      const step = { key, value: one, from };
      steps.push(step);
      under(step, one);
    }
  };
  under(null, value);
  return steps;
}

function pathTo(step: Step | null): Path {
  const path: (string | number)[] = [];
  for (let at = step; at !== null; at = at.from) path.push(at.key);
  return path.reverse();
}

/** Paths to every value of a JSON value, inner ones too; of a list the first member alone. */
export const leavesOf = (value: unknown): Path[] => stepsOf(value).map(pathTo);

/** The path to one of them, or the empty one of the whole. */
export const somePath = (value: unknown, pick: <T>(all: readonly T[]) => T): Path => pathTo(pick([null, ...stepsOf(value)]));

/** A copy with another value at a path. */
export function replaced<T>(value: T, [key, ...rest]: Path, by: unknown): T {
  if (key === undefined) return by as T; // the caller asks for something that does not fit: that is the point
  if (Array.isArray(value)) return value.map((one, i) => (i === key ? replaced(one, rest, by) : one)) as T;
  return { ...value, [key]: replaced((value as Record<string, unknown>)[key], rest, by) };
}
