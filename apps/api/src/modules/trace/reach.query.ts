import type { TraceGraph, TraceLot } from '@bakehouse/graph';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';

/** The lots that were reached, and the graph that tells their shares: it also holds the lots that only flow into them. */
export interface LotGraph {
  readonly reached: readonly Row<'lot'>['id'][];
  readonly graph: TraceGraph;
}
/** A link is a flow, or what was worked out to be as good as one. */
interface LinkRow extends Pick<Row<'flow'>, 'id' | 'source' | 'target' | 'mg' | 'pieces' | 'how' | 'certain' | 'anyOf' | 'at'> {
  readonly type: Computed<Row<'flow'>['type'] | 'identified' | 'contact'>;
}
type Lot = TableRow<'lot'>;
interface LotRow extends Pick<Lot, 'id' | 'name' | 'type' | 'book' | 'at'> {
  readonly code: Computed<Lot['code']>;
  readonly mg: Computed<Lot['mg']>;
  readonly pieces: Computed<Lot['pieces']>;
}
export type Direction = 'forward' | 'backward';

/**
 * The links between lots: what flowed, what a placeholder turned out to be, and (where asked for) what was made at the same station
 * before its next clean-down. A clean-down, an identification and a correction are the only facts that ever shorten a trace.
 */
const links = (contact: boolean): string => `
  link AS NOT MATERIALIZED (
    SELECT f.organisation, f.id, f.source, f.target, f.mg, f.pieces, f.how, f.type, f.certain, f.any_of, f.at FROM flow f WHERE f.organisation = $1
    UNION ALL
    SELECT i.organisation, i.id, i.same, i.lot, NULL, NULL, 'label', 'identified', true, NULL, i.at FROM lot_identified i WHERE i.organisation = $1 AND i.same IS NOT NULL
    ${
      contact
        ? `UNION ALL
    SELECT m.organisation, n.id, m.id, n.id, NULL, NULL, 'by-recipe', 'contact', false, NULL, n.at FROM make m JOIN make n
      ON n.organisation = m.organisation AND n.book = m.book AND n.station = m.station AND n.at > m.at
      WHERE m.organisation = $1 AND NOT EXISTS (
        SELECT 1 FROM clean_down c WHERE c.organisation = m.organisation AND c.place = m.station AND c.at > m.at AND c.at <= n.at)`
        : ''
    }
  )`;

/** The lots that can be reached from these, with all that flows into each (for shares) or out of each (for where it went). One recursive query, two reads. */
export async function reachableGraph(
  client: ClientBase,
  organisation: string,
  from: readonly string[],
  direction: Direction,
  contact: boolean,
): Promise<LotGraph> {
  const [near, far] = direction === 'forward' ? ['source', 'target'] : ['target', 'source'];
  const { rows: reached } = await client.query<{ lot: Lot['id'] }>(
    `WITH RECURSIVE ${links(contact)}, reach(lot) AS (
       SELECT unnest($2::uuid[]) UNION SELECT l.${far} FROM reach r JOIN link l ON l.organisation = $1 AND l.${near} = r.lot
     ) SELECT lot FROM reach`,
    [organisation, from],
  );
  const ids = reached.map((r) => r.lot);
  const { rows: flows } = await client.query<LinkRow>(
    `WITH ${links(contact)} SELECT id, source, target, mg, pieces, how, type, certain, any_of AS "anyOf", at FROM link WHERE organisation = $1 AND target = ANY($2)
     ${contact ? "AND (type <> 'contact' OR source = ANY($2))" : ''} ORDER BY at, id`,
    [organisation, ids],
  );
  return {
    reached: ids,
    graph: { flows, lots: await lotsById(client, organisation, [...new Set([...ids, ...flows.map((f) => f.source)])]) },
  };
}

/** Lots with the code that they are known by now: their own, or the one that an identification gave them. */
export async function lotsById(client: ClientBase, organisation: string, ids: readonly string[]): Promise<ReadonlyMap<string, TraceLot>> {
  const { rows } = await client.query<LotRow>(
    `SELECT l.id, l.name, l.type, coalesce(l.code, b.code, i.code) AS code, l.book, coalesce(l.mg, d.mg) AS mg, coalesce(l.pieces, b.pieces) AS pieces, l.at
     FROM lot l
     LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id
     LEFT JOIN LATERAL (SELECT code FROM lot_identified i WHERE i.organisation = l.organisation AND i.lot = l.id AND i.code IS NOT NULL ORDER BY i.seq DESC LIMIT 1) i ON true
     LEFT JOIN LATERAL (SELECT sum(f.mg)::bigint AS mg FROM flow f WHERE f.organisation = l.organisation AND f.target = l.id AND f.any_of IS NULL) d ON true
     WHERE l.organisation = $1 AND l.id = ANY($2)`,
    [organisation, ids],
  );
  return new Map(rows.map((r) => [r.id, r]));
}
