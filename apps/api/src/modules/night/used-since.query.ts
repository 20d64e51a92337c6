import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import type { BookRef } from '../../platform/ledger/index.js';

/** What was used of a lot, or put into it, since it was last counted: one line for what is certain and one for what was one of several lots. */
export interface UsedSince {
  readonly lot: TableRow<'lot'>['id'];
  readonly way: Computed<'out' | 'in'>;
  readonly certain: TableRow<'flow'>['certain'];
  /** Null where one of the amounts is not known. */
  readonly mg: Computed<number | null>;
  readonly at: TableRow<'flow'>['at'];
}

/** A lot, and the instant from which on is asked: from the beginning where it is null. */
export interface Since {
  readonly lot: TableRow<'lot'>['id'];
  readonly at: Computed<string | null>;
}

const summed = `CASE WHEN bool_or(f.mg IS NULL) THEN NULL ELSE sum(f.mg)::bigint END AS mg, max(f.at) AS at`;

/**
 * The uses of these lots up to an instant, added up: a sack is used a hundred times before it is empty, and a vessel for years. What went in as one of several lots is one
 * amount.
 */
export async function usedSince(
  client: ClientBase,
  { organisation }: BookRef,
  lots: readonly Since[],
  until: string,
): Promise<readonly UsedSince[]> {
  const { rows } = await client.query<UsedSince>({
    name: 'used since',
    text: `SELECT a.lot, s.way, s.certain, s.mg, s.at FROM unnest($2::uuid[], $3::timestamptz[]) a(lot, since) CROSS JOIN LATERAL (
        SELECT 'out' AS way, f.certain, ${summed} FROM (SELECT certain, mg, at FROM flow WHERE organisation = $1 AND source = a.lot OFFSET 0) f
          WHERE (a.since IS NULL OR f.at > a.since) AND f.at <= $4 GROUP BY f.certain
        UNION ALL
        SELECT 'in' AS way, true AS certain, ${summed} FROM (
          SELECT DISTINCT ON (coalesce(any_of, id)) mg, at FROM flow WHERE organisation = $1 AND target = a.lot ORDER BY coalesce(any_of, id), id OFFSET 0) f
          WHERE (a.since IS NULL OR f.at > a.since) AND f.at <= $4 HAVING count(*) > 0) s`,
    values: [organisation, lots.map((l) => l.lot), lots.map((l) => l.at), until],
  });
  return rows;
}
