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

/** Where it shows that a lot of another site came to a site, though nothing was done with it yet. */
const cameSql = (lot: string, site: string): string =>
  (['moved', 'returned', 'receiptDecision'] as const)
    .map((name) => `EXISTS (SELECT FROM ${table(name).name} f WHERE f.organisation = $1 AND f.lot = ${lot} AND f.book = ${site})`)
    .join(' OR ');

/** Whether a site recorded anything about a lot of another site, as a condition. $1 is the organisation. */
export const cameThereSql = (lot: string, site: string): string => `(${wasThereSql(lot, site)} OR ${cameSql(lot, site)})`;

/** Whether another site sent a lot to a shop of the house. Which of several shops is not recorded: it is each of them. $1 is the organisation. */
const sentToShopSql = (lot: string, site: string): string =>
  `EXISTS (SELECT FROM ${table('departure').name} f WHERE f.organisation = $1 AND f.lot = ${lot} AND f.book <> ${site}
    AND (f.channel = 'own-shop' OR (SELECT p.type FROM ${table('party').name} p WHERE p.organisation = $1 AND p.party = f.customer ORDER BY p.since DESC, p.id DESC LIMIT 1) = 'own-shop'))`;

/** Whether a row of a lot is of one that was made at a site, received there, came there, or was sent there as to a shop: gone from it since or not. $1 is the organisation. */
export const everAtSiteSql = (lot: string, site: string): string =>
  `(${lot}.book = ${site} OR ${cameThereSql(`${lot}.id`, site)} OR ${sentToShopSql(`${lot}.id`, site)})`;

/**
 * Whether food that something is recorded about was ever at a site: the lot itself, what came with a delivery, what was baked in a load. $1 is the organisation.
 */
export const foodAtSiteSql = (subject: string, site: string): string =>
  `EXISTS (SELECT FROM (SELECT ${subject} AS id UNION ALL SELECT c.id FROM lot c WHERE c.organisation = $1 AND c.delivery = ${subject}
      UNION ALL SELECT b.id FROM load_line i CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND run = i.run OFFSET 0) b WHERE i.organisation = $1 AND i.load = ${subject} OFFSET 0) food
    CROSS JOIN LATERAL (SELECT o.id, o.book FROM lot o WHERE o.organisation = $1 AND o.id = food.id OFFSET 0) l WHERE ${everAtSiteSql('l', site)})`;
