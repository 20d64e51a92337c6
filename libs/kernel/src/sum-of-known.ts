/** The sum of amounts; null where one of them is not known, since then nobody knows the sum. Of none it is zero. */
export const sumOfKnown = (amounts: readonly (number | null)[]): number | null =>
  amounts.reduce<number | null>((sum, amount) => (sum === null || amount === null ? null : sum + amount), 0);
