const first = 1_000;
const longest = 60_000;

/** How long to wait before the next try, after so many that failed: doubling from a second to a minute. */
export const backOff = (failures: number): number => Math.min(longest, first * 2 ** Math.min(failures, 10));
