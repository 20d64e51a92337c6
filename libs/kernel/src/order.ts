interface Timed {
  readonly at: string;
  readonly id: string;
}

/** By time, then by id: the same order on every machine for rows that share an instant. */
export const byTime = (a: Timed, b: Timed): number => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/** A copy in order of time. */
export const inOrder = <T extends Timed>(rows: readonly T[]): T[] => [...rows].sort(byTime);

/** The last of these in time, if there is one. */
export const latest = <T extends Timed>(rows: readonly T[]): T | undefined =>
  rows.reduce<T | undefined>((last, row) => (last && byTime(last, row) > 0 ? last : row), undefined);
