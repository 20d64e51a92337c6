/** The text of a query: the batches that have the code of one, itself among them. Whether they are of one product and day the rules judge. */
export const sameCode = (batch: string): string =>
  `SELECT o.id FROM (SELECT code FROM batch WHERE organisation = $1 AND id = ${batch} OFFSET 0) b CROSS JOIN LATERAL (
      SELECT id FROM batch WHERE organisation = $1 AND code = b.code OFFSET 0) o`;
