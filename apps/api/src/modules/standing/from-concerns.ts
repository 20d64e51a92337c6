import { takenLateSql } from '../../platform/ledger/index.js';

/** `reached`, a table of a WITH RECURSIVE: the lots that a text names, and all that came of them, each step looked up by index. $1 is the organisation. */
export const fromConcerns = (begins: string): string => `reached(lot) AS (
       ${begins}
       UNION SELECT n.lot FROM reached r CROSS JOIN LATERAL (
         SELECT f.target AS lot FROM flow f WHERE f.organisation = $1 AND f.source = r.lot
         UNION ALL SELECT l.target FROM (${takenLateSql('r.lot')}) l
         UNION ALL SELECT i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.same = r.lot
         OFFSET 0) n
     )`;
