export type Path = readonly (string | number)[];

/** Paths to every value of a JSON value, inner ones too; of a list the first member alone. */
export function leavesOf(value: unknown, path: Path = []): Path[] {
  const inner = Array.isArray(value)
    ? value.slice(0, 1).map((one, i) => [i, one] as const)
    : typeof value === 'object' && value !== null
      ? Object.entries(value)
      : [];
  return [...(path.length > 0 ? [path] : []), ...inner.flatMap(([key, one]) => leavesOf(one, [...path, key]))];
}

/** A copy with another value at a path. */
export function replaced<T>(value: T, [key, ...rest]: Path, by: unknown): T {
  if (key === undefined) return by as T; // the caller asks for something that does not fit: that is the point
  if (Array.isArray(value)) return value.map((one, i) => (i === key ? replaced(one, rest, by) : one)) as T;
  return { ...value, [key]: replaced((value as Record<string, unknown>)[key], rest, by) };
}
