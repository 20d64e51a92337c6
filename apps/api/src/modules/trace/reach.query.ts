import type { TraceGraph, TraceLot } from '@bakehouse/graph';
import { grouped } from '@bakehouse/kernel';
import { isAlike, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { contactEnds } from '../standing/index.js';
import { codeNow, foundCode, laterContentSql, staysUnnamed, takenLateSql, unnamedAtFirst } from '../../platform/ledger/index.js';
import { either } from './either.js';
import { besideOf, nothingWent, wentOf } from './went.query.js';

/** The lots that were reached, and the graph that tells their shares: it also holds the lots that only flow into them. */
export interface LotGraph {
  readonly reached: readonly Row<'lot'>['id'][];
  /** Lots that something may have been taken of instead of a reached one. */
  readonly beside: readonly Row<'lot'>['id'][];
  readonly graph: TraceGraph;
}
/** A link is a flow, or what was worked out to be as good as one. */
interface LinkRow extends Pick<Row<'flow'>, 'id' | 'source' | 'target' | 'mg' | 'pieces' | 'how' | 'certain' | 'anyOf' | 'at'> {
  readonly type: Computed<Row<'flow'>['type'] | 'identified' | 'contact' | 'perhaps'>;
}
type Lot = TableRow<'lot'>;
interface LotRow extends Pick<Lot, 'id' | 'name' | 'type' | 'book' | 'material' | 'at'> {
  readonly unnamed: Computed<boolean>;
  readonly nobodyKnows: Computed<boolean>;
  readonly code: Computed<Lot['code']>;
  readonly mg: Computed<Lot['mg']>;
  readonly pieces: Computed<Lot['pieces']>;
  readonly pieceMg: Maybe<Row<'run'>>['scalingMg'];
  readonly outMg: Computed<Lot['mg']>;
  readonly outAt: Computed<Lot['at'] | null>;
  readonly lostMg: Computed<Lot['mg']>;
  /** Nobody records yet how much of a loss was water. */
  readonly evaporatedMg: Computed<null>;
}
interface ReachRow {
  readonly lot: Lot['id'];
  /** The make that left its station as it was for this one; null where something flowed. */
  readonly touched: Row<'make'>['id'] | null;
}
export type Direction = 'forward' | 'backward';

/**
 * What came next at the station of a make before that was cleaned: from one to the next, so that a station which nobody ever cleaned is walked
 * along once and not paired with itself. A clean-down counts once nothing more was put into the make. `until` is how far the make that touched
 * this one reaches; where that is further than this one's own next clean-down, it goes on being the one that touches.
 * Walks compare whole rows and ask for the index's own order: equalities could be answered by any index that begins alike, and without
 * statistics the planner may take one that reads all of a station or a site.
 */
const nextAtStation = `
  SELECT n.id, w.until, w.touching FROM make m
  CROSS JOIN LATERAL (${contactEnds}) own
  CROSS JOIN LATERAL (SELECT greatest(own.at, r.until) AS until, CASE WHEN r.until > own.at THEN r.touched ELSE m.id END AS touching OFFSET 0) w
  CROSS JOIN LATERAL (SELECT y.id FROM make y WHERE y.organisation = $1 AND (y.station, y.at) > (m.station, m.at)
    AND (y.station, y.at) < (m.station, w.until) ORDER BY y.station, y.at FETCH FIRST ROW WITH TIES) n
  WHERE m.organisation = $1 AND m.id = r.lot`;

/**
 * Those that a lot may have been: of its material, used once it had come, and of its code where one was found (`isAlike` in records). The other way round it would be every
 * lot of a material.
 */
const perhapsIt = `
  SELECT p.id, NULL::timestamptz, NULL::uuid FROM lot s CROSS JOIN LATERAL (
    SELECT p.id, ${foundCode('p')} AS found FROM lot p WHERE p.organisation = $1 AND (p.material, p.type, p.at) >= (s.material, 'placeholder', s.at)
      AND (p.material, p.type, p.at) <= (s.material, 'placeholder', 'infinity') AND ${staysUnnamed('p')} OFFSET 0) p
  WHERE s.organisation = $1 AND s.id = r.lot AND NOT ${unnamedAtFirst('s')}
    AND (p.found IS NULL OR lot_code_key(p.found) = lot_code_key(${codeNow('s')}))`;

/** What is linked by a content that somebody named though it was over. */
const late = {
  forward: `SELECT l.target AS lot FROM (${takenLateSql('r.lot')}) l`,
  backward: `SELECT n.lot FROM flow f CROSS JOIN LATERAL (${laterContentSql('f')}) n WHERE f.organisation = $1 AND f.target = r.lot`,
} as const;

/**
 * Follows flows, what a placeholder turned out to be, or forward may be, and (where asked for) shared stations. Each step looks the next lots up by an index, however
 * large the tables are and whatever is known of them: OFFSET 0 keeps the planner from turning the look-ups into a join. A clean-down, an
 * identification and a correction are the only facts that ever shorten a trace.
 */
const reaching = (direction: Direction, contact: boolean): string => {
  const [near, far, known, other] = direction === 'forward' ? ['source', 'target', 'same', 'lot'] : ['target', 'source', 'lot', 'same'];
  return `
  WITH RECURSIVE reach(lot, until, touched) AS (
    SELECT s, NULL::timestamptz, NULL::uuid FROM unnest($2::uuid[]) s
    UNION SELECT n.* FROM reach r CROSS JOIN LATERAL (
      (SELECT f.${far}, NULL::timestamptz, NULL::uuid FROM flow f WHERE f.organisation = $1 AND f.${near} = r.lot OFFSET 0)
      UNION ALL
      (SELECT l.lot, NULL, NULL FROM (${late[direction]}) l OFFSET 0)
      UNION ALL
      (SELECT i.${other}, NULL, NULL FROM lot_identified i WHERE i.organisation = $1 AND i.${known} = r.lot AND i.same IS NOT NULL OFFSET 0)
      ${direction === 'forward' ? `UNION ALL (${perhapsIt} OFFSET 0)` : ''}
      ${contact ? `UNION ALL (${nextAtStation} OFFSET 0)` : ''}) n
  ) SELECT lot, touched FROM reach`;
};

const flowsInto = `
  SELECT f.* FROM unnest($2::uuid[]) t(lot) CROSS JOIN LATERAL (
    (SELECT f.id, o.source, f.target, f.mg, f.pieces, f.how, f.type, f.certain AND n.lot IS NULL AS certain,
       coalesce(f.any_of, CASE WHEN n.lot IS NOT NULL THEN f.id END) AS "anyOf", f.at
     FROM flow f LEFT JOIN LATERAL (${laterContentSql('f')} OFFSET 0) n ON true
     CROSS JOIN LATERAL (SELECT f.source UNION ALL SELECT n.lot WHERE n.lot IS NOT NULL) o
     WHERE f.organisation = $1 AND f.target = t.lot OFFSET 0)
    UNION ALL
    (SELECT id, same, lot, NULL, NULL, 'label', 'identified', true, NULL, at FROM lot_identified
     WHERE organisation = $1 AND lot = t.lot AND same IS NOT NULL OFFSET 0)) f`;

/** What a trace found, before its lots are read. */
export interface Found {
  readonly direction: Direction;
  readonly reached: readonly Row<'lot'>['id'][];
  readonly beside: readonly Row<'lot'>['id'][];
  readonly rows: readonly ReachRow[];
  readonly flows: readonly LinkRow[];
}

/**
 * The lots that can be reached from these, with all that flows into each (for shares) or out of each (for where it went). Contact spreads forward
 * only: what a station held before cannot have got it from what came after.
 */
export async function reachedFrom(
  client: ClientBase,
  organisation: string,
  from: readonly string[],
  direction: Direction,
  contact: boolean,
): Promise<Found> {
  const touching = contact && direction === 'forward';
  const { rows } = await client.query<ReachRow>({
    name: `reach ${direction}${touching ? ' and what touched' : ''}`,
    text: reaching(direction, touching),
    values: [organisation, from],
  });
  const reached = [...new Set(rows.map((r) => r.lot))];
  const [{ rows: flows }, beside] = await Promise.all([
    client.query<LinkRow>({ name: 'flows into lots', text: flowsInto, values: [organisation, reached] }),
    direction === 'forward' ? besideOf(client, organisation, reached) : [],
  ]);
  return { direction, reached, beside, rows, flows };
}

/** The graph of what was found. */
export async function graphOf(client: ClientBase, organisation: string, found: Found): Promise<LotGraph> {
  const { direction, reached, beside, rows, flows } = found;
  const ids = [...new Set([...reached, ...beside, ...flows.map((f) => f.source)])];
  const { lots, nobodyKnows } = await lotsById(client, organisation, ids, flows);
  const perhaps = direction === 'forward' ? perhapsAmong(nobodyKnows, reached, lots) : [];
  const links = [...flows, ...perhaps, ...rows.flatMap((r) => touches(r, lots))].sort((a, b) => order(a.at, b.at) || order(a.id, b.id));
  return { reached, beside, graph: { flows: links, lots } };
}

/** Both, one after the other. */
export async function reachableGraph(...asked: Parameters<typeof reachedFrom>): Promise<LotGraph> {
  const [client, organisation] = asked;
  return graphOf(client, organisation, await reachedFrom(...asked));
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function touches({ lot: id, touched: source }: ReachRow, lots: ReadonlyMap<string, TraceLot>): LinkRow[] {
  const made = lots.get(id);
  if (source === null || !made) return [];
  return [{ id, source, target: id, type: 'contact', ...notWeighed, how: 'by-recipe', at: made.at }];
}

/** Those of these lots that nobody could name, and nobody has since, each with what it may have been. */
function perhapsAmong(nobodyKnows: ReadonlySet<string>, ids: readonly string[], lots: ReadonlyMap<string, TraceLot>): LinkRow[] {
  if (nobodyKnows.size === 0) return [];
  const ofMaterial = grouped(
    ids.flatMap((id) => (nobodyKnows.has(id) ? [] : (lots.get(id) ?? []))),
    (l) => l.material,
  );
  return [...nobodyKnows].flatMap((id) => {
    const { material, at, code } = lots.get(id) ?? { material: '', at: '', code: null };
    return (ofMaterial.get(material) ?? [])
      .filter((one) => one.at <= at && (code === null || isAlike({ id, material, code }, one)))
      .map((one): LinkRow => ({ id: `${id} ${one.id}`, source: one.id, target: id, type: 'perhaps', ...notWeighed, how: 'estimated', at }));
  });
}

const notWeighed = { mg: null, pieces: null, certain: false, anyOf: null } as const;

/** All that went into a lot, in milligrams: pieces by what one of them weighs, one of several lots once. Null where one line has no weight. */
const allThatWentIn = (when: string, asked: string): string => `
  SELECT CASE WHEN count(*) = count(one.mg) THEN sum(one.mg)::bigint END AS mg FROM (
    SELECT DISTINCT ON (coalesce(f.any_of, f.id)) CASE WHEN f.certain THEN coalesce(f.mg, f.pieces * s.scaling_mg) WHEN f.any_of IS NOT NULL THEN f.mg END AS mg
    FROM flow f
    LEFT JOIN LATERAL (SELECT sb.run FROM batch sb WHERE sb.organisation = $1 AND sb.id = f.source OFFSET 0) sb ON true
    LEFT JOIN LATERAL (SELECT s.scaling_mg FROM run s WHERE s.organisation = $1 AND s.id = ${either('sb.run', 'f.source')} OFFSET 0) s ON true
    WHERE f.organisation = $1 AND f.target = a.lot AND ${when}) one WHERE ${asked}`;

/** What there was of a make to divide, where that was weighed. Of more than one division nobody knows which of them it is about. */
const weighedToDivide = `
  SELECT max(v.weighed_mg) AS mg, max(v.at) AS at FROM divided v WHERE v.organisation = $1 AND v.make = a.lot HAVING count(*) = 1 AND count(v.weighed_mg) = 1`;

/** The lots of which it matters how much there was left to use: those of a line without a weight, or of one of several. */
const inDoubt = (flows: readonly LinkRow[]): string[] => [
  ...new Set(flows.filter((f) => f.anyOf !== null || f.mg === null).map((f) => f.source)),
];

/** Lots with the code that they are known by now: their own, or the one that an identification gave them. */
async function lotsById(
  client: ClientBase,
  organisation: string,
  ids: readonly string[],
  flows: readonly LinkRow[],
): Promise<{ readonly lots: ReadonlyMap<string, TraceLot>; readonly nobodyKnows: ReadonlySet<string> }> {
  const { rows } = await client.query<LotRow>({
    name: 'lots of a trace',
    text: `SELECT l.id, l.name, l.type, ${unnamedAtFirst('l')} AS unnamed, ${staysUnnamed('l')} AS "nobodyKnows", coalesce(l.code, b.code, i.code) AS code, l.book, l.material, coalesce(l.mg, b.pieces * r.scaling_mg, d.mg) AS mg,
       coalesce(l.pieces, b.pieces) AS pieces, r.scaling_mg AS "pieceMg", 
       CASE WHEN w.at > e.at OR e.at IS NULL THEN w.mg ELSE e.mg END AS "outMg", greatest(e.at, w.at) AS "outAt", before.mg - e.mg AS "lostMg", NULL AS "evaporatedMg", l.at
     FROM unnest($2::uuid[]) a(lot)
     CROSS JOIN LATERAL (SELECT * FROM lot l WHERE l.organisation = $1 AND l.id = a.lot OFFSET 0) l
     LEFT JOIN LATERAL (SELECT code, pieces, run FROM batch b WHERE b.organisation = $1 AND b.id = a.lot OFFSET 0) b ON true
     LEFT JOIN LATERAL (SELECT code FROM lot_identified i WHERE i.organisation = $1 AND i.lot = a.lot AND i.code IS NOT NULL ORDER BY i.seq DESC LIMIT 1) i ON true
     LEFT JOIN LATERAL (SELECT scaling_mg FROM run r WHERE r.organisation = $1 AND r.id = ${either('b.run', 'a.lot')} OFFSET 0) r ON true
     LEFT JOIN LATERAL (SELECT m.mg, m.at FROM make_ended m WHERE m.organisation = $1 AND m.make = a.lot AND m.mg IS NOT NULL ORDER BY m.at DESC, m.seq DESC LIMIT 1) e ON true
     LEFT JOIN LATERAL (${weighedToDivide}) w ON true
     LEFT JOIN LATERAL (${allThatWentIn('true', 'coalesce(l.mg, b.pieces * r.scaling_mg) IS NULL')}) d ON true
     LEFT JOIN LATERAL (${allThatWentIn('f.at <= e.at', 'e.mg IS NOT NULL')}) before ON true`,
    values: [organisation, ids],
  });
  const went = await wentOf(client, organisation, inDoubt(flows));
  const lots = new Map(rows.map(({ nobodyKnows: _, ...r }) => [r.id, { ...r, ...(went.get(r.id) ?? nothingWent) }]));
  return { lots, nobodyKnows: new Set(rows.flatMap((r) => (r.nobodyKnows ? r.id : []))) };
}
