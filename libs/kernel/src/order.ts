interface Timed {
  readonly at: string;
  readonly id: string;
}

/** Texts by their code units: the same order on every machine, of instants too. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** By time, then by id: the same order on every machine for rows that share an instant. */
export const byTime = (a: Timed, b: Timed): number => byText(a.at, b.at) || byText(a.id, b.id);

/** A copy in order of time. */
export const inOrder = <T extends Timed>(rows: readonly T[]): T[] => [...rows].sort(byTime);

/** The last of these in time, if there is one. */
export const latest = <T extends Timed>(rows: readonly T[]): T | undefined =>
  rows.reduce<T | undefined>((last, row) => (last && byTime(last, row) > 0 ? last : row), undefined);
