/** A moment and what a probe showed then. */
export type Pair = readonly [minutes: number, celsius: number];

/** Readings in the shape the sums take. */
export const profile = (...pairs: readonly Pair[]): { minutes: number; celsius: number }[] =>
  pairs.map(([minutes, celsius]) => ({ minutes, celsius }));
