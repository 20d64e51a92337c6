import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import { concernBegins, pastLifeAmong, watchedUpTo } from '../../platform/ledger/index.js';
import { fromConcerns } from './from-concerns.js';

/** So much on watch is looked through, and so many reached lots beside those that are asked about; beyond that each lot is followed to what it comes from. */
const maxWatched = 1_000;
const maxReached = 5_000;

interface Among {
  readonly tooMany: Computed<boolean>;
  readonly lots: Computed<readonly Row<'lot'>['id'][]>;
}

/**
 * Which of these lots an open concern may reach at an instant, or which may be past their life by then: from what is on watch onwards, so that it follows what is open and not what these lots ever came of. Null
 * where so much is open that this would take longer than to ask each lot what it comes of.
 */
export async function reachedAmong(
  client: ClientBase,
  organisation: string,
  lots: readonly string[],
  at: string,
): Promise<ReadonlySet<string> | null> {
  if (lots.length === 0) return new Set();
  const { rows } = await client.query<Among>({
    name: 'lots reached among some',
    text: `WITH RECURSIVE ${watchedUpTo('$3')}, few(are) AS MATERIALIZED (SELECT count(*) < $3 FROM watched),
     ${fromConcerns(`SELECT b.lot FROM (${concernBegins}) b WHERE (SELECT are FROM few)`)},
     found(lot) AS MATERIALIZED (SELECT lot FROM reached LIMIT $4)
     SELECT NOT (SELECT are FROM few) OR (SELECT count(*) FROM found) >= $4 AS "tooMany",
       ARRAY(SELECT f.lot FROM found f WHERE f.lot IN (SELECT unnest($2::uuid[]))
         UNION ${pastLifeAmong('SELECT unnest($2::uuid[]) AS lot', '$5::timestamptz')}) AS lots`,
    values: [organisation, lots, maxWatched, maxReached + lots.length, at],
  });
  const [found] = rows;
  return !found || found.tooMany ? null : new Set(found.lots);
}
