import type { TraceGraph, TraceLot } from '@bakehouse/graph';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

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
interface LotRow extends Pick<Lot, 'id' | 'name' | 'type' | 'book' | 'material' | 'at'> {
  readonly code: Computed<Lot['code']>;
  readonly mg: Computed<Lot['mg']>;
  readonly pieces: Computed<Lot['pieces']>;
  readonly pieceMg: Maybe<Row<'run'>>['scalingMg'];
  readonly outMg: Maybe<Row<'makeEnded'>>['mg'];
  readonly outAt: Maybe<Row<'makeEnded'>>['at'];
  readonly lostMg: Computed<Lot['mg']>;
  /** Nobody records yet how much of a loss was water. */
  readonly evaporatedMg: Computed<null>;
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

/** All that went into a lot, in milligrams: pieces by what one of them weighs, one of several lots once. Null where one line has no weight. */
const allThatWentIn = (when: string): string => `
  SELECT CASE WHEN count(*) = count(one.mg) THEN sum(one.mg)::bigint END AS mg FROM (
    SELECT DISTINCT ON (coalesce(f.any_of, f.id)) CASE WHEN f.certain THEN coalesce(f.mg, f.pieces * s.scaling_mg) WHEN f.any_of IS NOT NULL THEN f.mg END AS mg
    FROM flow f LEFT JOIN batch sb ON sb.organisation = f.organisation AND sb.id = f.source
    LEFT JOIN run s ON s.organisation = f.organisation AND s.id = coalesce(sb.run, f.source)
    WHERE f.organisation = l.organisation AND f.target = l.id AND ${when}) one`;

/** Lots with the code that they are known by now: their own, or the one that an identification gave them. */
export async function lotsById(client: ClientBase, organisation: string, ids: readonly string[]): Promise<ReadonlyMap<string, TraceLot>> {
  const { rows } = await client.query<LotRow>(
    `SELECT l.id, l.name, l.type, coalesce(l.code, b.code, i.code) AS code, l.book, l.material, coalesce(l.mg, b.pieces * r.scaling_mg, d.mg) AS mg,
       coalesce(l.pieces, b.pieces) AS pieces, r.scaling_mg AS "pieceMg", e.mg AS "outMg", e.at AS "outAt", before.mg - e.mg AS "lostMg", NULL AS "evaporatedMg", l.at
     FROM lot l
     LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id
     LEFT JOIN LATERAL (SELECT code FROM lot_identified i WHERE i.organisation = l.organisation AND i.lot = l.id AND i.code IS NOT NULL ORDER BY i.seq DESC LIMIT 1) i ON true
     LEFT JOIN run r ON r.organisation = l.organisation AND r.id = coalesce(b.run, l.id)
     LEFT JOIN LATERAL (SELECT m.mg, m.at FROM make_ended m WHERE m.organisation = l.organisation AND m.make = l.id AND m.mg IS NOT NULL ORDER BY m.at DESC, m.seq DESC LIMIT 1) e ON true
     LEFT JOIN LATERAL (${allThatWentIn('true')}) d ON true
     LEFT JOIN LATERAL (${allThatWentIn('f.at <= e.at')}) before ON true
     WHERE l.organisation = $1 AND l.id = ANY($2)`,
    [organisation, ids],
  );
  return new Map(rows.map((r) => [r.id, r]));
}
