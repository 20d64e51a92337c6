/** A list with one member changed, moved up or taken out. */
export const changedAt = <T>(list: readonly T[], at: number, to: Partial<T>): T[] =>
  list.map((one, i) => (i === at ? { ...one, ...to } : one));
export const without = <T>(list: readonly T[], at: number): T[] => list.filter((_, i) => i !== at);
export const movedUp = <T>(list: readonly T[], at: number): T[] => {
  const [one, above] = [list[at], list[at - 1]];
  return one === undefined || above === undefined ? [...list] : list.map((other, i) => (i === at - 1 ? one : i === at ? above : other));
};
