export interface DivisionSum {
  inMg: number | null;
  runsMg: number;
  oldDoughMg: number;
  scrapMg: number;
  differenceMg: number | null;
}

/** The sum of a make-up in milligrams. Difference: what there was, less pieces × scaling weight, old dough and scrap; below zero where more came out. */
export function divisionSum(
  inMg: number | null,
  runs: readonly { pieces: number; scalingMg: number }[],
  oldDoughMg: number,
  scrapMg: number,
): DivisionSum {
  const runsMg = runs.reduce((sum, r) => sum + r.pieces * r.scalingMg, 0);
  return { inMg, runsMg, oldDoughMg, scrapMg, differenceMg: inMg === null ? null : inMg - runsMg - oldDoughMg - scrapMg };
}
