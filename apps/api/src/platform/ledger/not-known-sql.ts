/**
 * What `standing/not-known.ts` in records says of a lot, for queries that choose which rows are looked at: parts of statements in which $1 is the organisation
 * and `lot` a table's name with the lot's columns.
 */

/** Whether it stands for one that nobody could name when it was used: `isUnnamed`. */
export const unnamedAtFirst = (lot: string): string => `(${lot}.type = 'placeholder' AND ${lot}.delivery IS NULL)`;

/** The same, where nobody has said since which lot it is: that its code was found does not say which. */
export const staysUnnamed = (lot: string): string =>
  `${unnamedAtFirst(lot)} AND NOT EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.lot = ${lot}.id AND i.same IS NOT NULL)`;

/** The code that it was given later; null where none was. */
export const foundCode = (lot: string): string =>
  `(SELECT i.code FROM lot_identified i WHERE i.organisation = $1 AND i.lot = ${lot}.id AND i.code IS NOT NULL ORDER BY i.at DESC, i.seq DESC LIMIT 1)`;

/** The code that it is known by now, from outside: its own, or the one that it was given later. */
export const codeNow = (lot: string): string => `coalesce(${lot}.code, ${foundCode(lot)})`;
