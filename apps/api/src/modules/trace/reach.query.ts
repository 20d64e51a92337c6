import type { TraceGraph, TraceLot } from '@bakehouse/graph';
import { byTime, grouped } from '@bakehouse/kernel';
import { isAlike, withPutOn, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { idsOf, rowsBy, type Computed, type TableRow } from '../../platform/database/index.js';
import { contactEnds } from '../standing/index.js';
import { codeNow, foundCode, laterContentSql, staysUnnamed, takenLateSql, unnamedAtFirst } from '../../platform/ledger/index.js';
import { lotsOf, readLots, type LotsRead } from './lots.query.js';
import { ofVessel, vesselsOf } from './vessels.js';
import { besideOf, wentOf } from './went.query.js';

/** The lots that were reached, and the graph that tells their shares: it also holds the lots that only flow into them. */
export interface LotGraph {
  readonly reached: readonly Row<'lot'>['id'][];
  /** Lots that something may have been taken of instead of a reached one. */
  readonly beside: readonly Row<'lot'>['id'][];
  readonly graph: TraceGraph;
}
/** A link is a flow, or what was worked out to be as good as one. */
interface LinkRow extends Pick<
  Row<'flow'>,
  'id' | 'source' | 'target' | 'mg' | 'pieces' | 'how' | 'certain' | 'anyOf' | 'at' | 'earliest' | 'latest'
> {
  readonly type: Computed<Row<'flow'>['type'] | 'identified' | 'contact' | 'perhaps'>;
}
type Lot = TableRow<'lot'>;
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
const nextAtStation = (makes: string, until: string, touched: string): string => `
  SELECT n.id, w.until, w.touching FROM (${makes}) m
  CROSS JOIN LATERAL (${contactEnds}) own
  CROSS JOIN LATERAL (SELECT greatest(own.at, ${until}) AS until, CASE WHEN ${until} > own.at THEN ${touched} ELSE m.id END AS touching OFFSET 0) w
  CROSS JOIN LATERAL (SELECT y.id FROM make y WHERE y.organisation = $1 AND (y.station, y.at) > (m.station, m.at)
    AND (y.station, y.at) < (m.station, w.until) ORDER BY y.station, y.at FETCH FIRST ROW WITH TIES) n`;

/** The lots of a material, used since some moment, that nobody could name and nobody has since, as `p`, each with the code that was found. */
const unnamedSince = (of: string): string => `
  SELECT p.id, p.material, p.at, ${foundCode('p')} AS found FROM lot p WHERE p.organisation = $1 AND (p.material, p.type, p.at) >= (${of}.material, 'placeholder', ${of}.at)
    AND (p.material, p.type, p.at) <= (${of}.material, 'placeholder', 'infinity') AND ${staysUnnamed('p')} OFFSET 0`;
const ofItsCode = `lot_code_key(p.found) = lot_code_key(${codeNow('s')})`;

/**
 * Those that a lot may have been: of its material, used once it had come, and of its code where one was found (`isAlike` in records). The other way round it would be every
 * lot of a material.
 */
const perhapsIt = `
  SELECT p.id, NULL::timestamptz, NULL::uuid FROM lot s CROSS JOIN LATERAL (${unnamedSince('s')}) p
  WHERE s.organisation = $1 AND s.id = r.lot AND NOT ${unnamedAtFirst('s')} AND (p.found IS NULL OR ${ofItsCode})`;
/** The same of all lots that flows led to: of each material once. */
const perhapsThey = `
  SELECT p.id, NULL::timestamptz, NULL::uuid FROM (SELECT s.material, min(s.at) AS at FROM flowed s WHERE NOT ${unnamedAtFirst('s')} GROUP BY s.material) m
  CROSS JOIN LATERAL (${unnamedSince('m')}) p
  WHERE p.found IS NULL OR EXISTS (SELECT FROM flowed s WHERE s.material = p.material AND s.at <= p.at AND NOT ${unnamedAtFirst('s')} AND ${ofItsCode})`;

/** What is linked by a content that somebody named though it was over. */
const late = {
  forward: `SELECT l.target AS lot FROM (${takenLateSql('r.lot')}) l`,
  backward: `SELECT n.lot FROM flow f CROSS JOIN LATERAL (${laterContentSql('f')}) n WHERE f.organisation = $1 AND f.target = r.lot`,
} as const;
/** The same of all lots that flows led to: none of them, where none is the content of a vessel. */
const vessels = "SELECT v.id FROM flowed v WHERE v.type = 'vessel'";
const theirLate = {
  forward: `SELECT l.target FROM (${vessels} OFFSET 0) v CROSS JOIN LATERAL (${takenLateSql('v.id')}) l`,
  backward: `SELECT n.lot FROM (${rowsBy('flow', 'target', `SELECT lot FROM along WHERE EXISTS (${vessels})`)}) f
    CROSS JOIN LATERAL (${laterContentSql('f')}) n WHERE (f.source IN (${vessels})) IS TRUE`,
} as const;

/**
 * Follows flows, what a placeholder turned out to be, or forward may be, and (where asked for) shared stations. Flows are followed first, since a chain of years is
 * nothing else, lot after lot; what else leads on from the lots that they led to is then asked of all of them at once, and from whatever that adds everything
 * is followed. Each step looks the next lots up by an index, however
 * large the tables are and whatever is known of them: OFFSET 0 keeps the planner from turning the look-ups into a join. A clean-down, an
 * identification and a correction are the only facts that ever shorten a trace.
 */
const reaching = (direction: Direction, contact: boolean): string => {
  const [near, far, known, other] = direction === 'forward' ? ['source', 'target', 'same', 'lot'] : ['target', 'source', 'lot', 'same'];
  const found = 'SELECT lot FROM along';
  const added = 'n.until IS NOT NULL OR n.lot NOT IN (SELECT lot FROM along)';
  return `
  WITH RECURSIVE along(lot) AS (
    SELECT s FROM unnest($2::uuid[]) s
    UNION SELECT n.${far} FROM along a CROSS JOIN LATERAL (SELECT f.${far} FROM flow f WHERE f.organisation = $1 AND f.${near} = a.lot OFFSET 0) n
  ), flowed AS MATERIALIZED (
    SELECT l.id, l.type, l.material, l.at, l.code, l.delivery FROM (${rowsBy('lot', 'id', found)}) l
  ), reach(lot, until, touched) AS (
    SELECT * FROM (
      (SELECT l.*, NULL::timestamptz, NULL::uuid FROM (${theirLate[direction]}) l)
      UNION (SELECT i.${other}, NULL, NULL FROM (${rowsBy('lot_identified', known, found)}) i WHERE i.same IS NOT NULL)
      ${direction === 'forward' ? `UNION (${perhapsThey})` : ''}
      ${contact ? `UNION (${nextAtStation(rowsBy('make', 'id', found), 'NULL::timestamptz', 'NULL::uuid')})` : ''}) n(lot, until, touched) WHERE ${added}
    UNION SELECT n.* FROM reach r CROSS JOIN LATERAL (
      (SELECT f.${far}, NULL::timestamptz, NULL::uuid FROM flow f WHERE f.organisation = $1 AND f.${near} = r.lot OFFSET 0)
      UNION ALL
      (SELECT l.lot, NULL, NULL FROM (${late[direction]}) l OFFSET 0)
      UNION ALL
      (SELECT i.${other}, NULL, NULL FROM lot_identified i WHERE i.organisation = $1 AND i.${known} = r.lot AND i.same IS NOT NULL OFFSET 0)
      ${direction === 'forward' ? `UNION ALL (${perhapsIt} OFFSET 0)` : ''}
      ${contact ? `UNION ALL (${nextAtStation('SELECT * FROM make m WHERE m.organisation = $1 AND m.id = r.lot', 'r.until', 'r.touched')} OFFSET 0)` : ''}) n(lot, until, touched) WHERE ${added}
  ) SELECT lot, NULL::uuid AS touched FROM along UNION ALL SELECT lot, touched FROM reach ORDER BY lot`;
};

const flowColumns = 'id, source, target, mg, pieces, how, type, certain, any_of, at, earliest, latest';
const flowOf = (f: string): string => `SELECT ${flowColumns} FROM (${f}) f`;
const puttingOn = "('after-oven', 'aid')";
/** Flows into lots, and what says onto what something was put: of pieces what was put on their make, and of a make that something was put on all that it was divided into (`withPutOn`). */
const flowsBeside = `
  into_them AS MATERIALIZED (${flowOf(rowsBy('flow', 'target'))}),
  on_makes AS MATERIALIZED (${flowOf(`SELECT n.* FROM (SELECT DISTINCT source FROM into_them WHERE type = 'divided') m CROSS JOIN LATERAL (
    SELECT * FROM flow g WHERE g.organisation = $1 AND g.target = m.source AND g.type IN ${puttingOn} OFFSET 0) n`)}),
  divided_too AS (${flowOf(`SELECT n.* FROM (SELECT target FROM into_them WHERE type IN ${puttingOn} UNION SELECT target FROM on_makes) m CROSS JOIN LATERAL (
    SELECT * FROM flow g WHERE g.organisation = $1 AND g.source = m.target AND g.type = 'divided' OFFSET 0) n`)}),
  f AS MATERIALIZED (SELECT * FROM into_them UNION SELECT * FROM on_makes UNION SELECT * FROM divided_too)`;

/** What flowed into lots. Of a content that somebody named though it was over, and of the one that was there then, it is one amount of both. */
const flowsInto = `
  WITH ${flowsBeside}, ${vesselsOf('SELECT source FROM f')}
  SELECT f.id, f.source, f.target, f.mg, f.pieces, f.how, f.type, f.certain, f.any_of AS "anyOf", f.at, f.earliest, f.latest FROM f WHERE f.source NOT IN (SELECT id FROM vessel)
  UNION ALL
  SELECT f.id, o.source, f.target, f.mg, f.pieces, f.how, f.type, f.certain AND n.lot IS NULL, coalesce(f.any_of, CASE WHEN n.lot IS NOT NULL THEN f.id END), f.at, f.earliest, f.latest
  FROM (SELECT * FROM f WHERE ${ofVessel('f.source')} OFFSET 0) f LEFT JOIN LATERAL (${laterContentSql('f')} OFFSET 0) n ON true
  CROSS JOIN LATERAL (SELECT f.source UNION ALL SELECT n.lot WHERE n.lot IS NOT NULL) o
  UNION ALL
  SELECT id, same, lot, NULL, NULL, 'label', 'identified', true, NULL, at, NULL, NULL
  FROM (${rowsBy('lot_identified', 'lot')}) i WHERE same IS NOT NULL`;

/** What a trace found, with what is known of the lots that it reached; the others are read for the graph. */
export interface Found {
  readonly direction: Direction;
  readonly reached: readonly Row<'lot'>['id'][];
  readonly beside: readonly Row<'lot'>['id'][];
  readonly rows: readonly ReachRow[];
  readonly flows: readonly LinkRow[];
  readonly lots: LotsRead;
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
    values: [organisation, idsOf(from)],
  });
  const reached = [...new Set(rows.map((r) => r.lot))];
  const [{ rows: around }, lots, beside] = await Promise.all([
    client.query<LinkRow>({ name: 'flows into lots', text: flowsInto, values: [organisation, idsOf(reached)] }),
    readLots(client, organisation, reached),
    direction === 'forward' ? besideOf(client, organisation, reached) : [],
  ]);
  const known = new Set(reached);
  const flows = withPutOn(around).filter((f) => known.has(f.target));
  return { direction, reached, beside, rows, flows, lots };
}

/** The graph of what was found. */
export async function graphOf(client: ClientBase, organisation: string, found: Found): Promise<LotGraph> {
  const { direction, reached, beside, rows, flows } = found;
  const known = new Set(reached);
  const others = new Set([...beside, ...flows.map((f) => f.source)].filter((id) => !known.has(id)));
  const [more, went] = await Promise.all([readLots(client, organisation, [...others]), wentOf(client, organisation, inDoubt(flows))]);
  const read = { rows: [...found.lots.rows, ...more.rows], said: [...found.lots.said, ...more.said] };
  const { lots, nobodyKnows } = lotsOf(read, went);
  const perhaps = direction === 'forward' ? perhapsAmong(nobodyKnows, reached, lots) : [];
  const links = [...flows, ...perhaps, ...rows.flatMap((r) => touches(r, lots))].sort(byTime);
  return { reached, beside, graph: { flows: links, lots } };
}

/** Both, one after the other. */
export async function reachableGraph(...asked: Parameters<typeof reachedFrom>): Promise<LotGraph> {
  const [client, organisation] = asked;
  return graphOf(client, organisation, await reachedFrom(...asked));
}

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

const notWeighed = { mg: null, pieces: null, certain: false, anyOf: null, earliest: null, latest: null } as const;

/** The lots of which it matters how much there was left to use: those of a line without a weight, or of one of several. */
const inDoubt = (flows: readonly LinkRow[]): string[] => [
  ...new Set(flows.filter((f) => f.anyOf !== null || f.mg === null).map((f) => f.source)),
];
