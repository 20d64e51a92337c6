import { doneWith } from '@bakehouse/records';
import { snake, table } from '../../platform/ledger/index.js';

/** Of a lot: whether anything was done with it, as a condition; of a site, where one is named, whether it was done there. $1 is the organisation. */
export const wasThereSql = (lot: string, site?: string): string =>
  `(${doneWith(lot)
    .map(
      (need) =>
        `EXISTS (SELECT 1 FROM ${table(need.in).name} f WHERE f.organisation = $1 AND f.${snake(need.by)} = ${need.value}${site === undefined ? '' : ` AND f.book = ${site}`})`,
    )
    .join(' OR ')})`;
