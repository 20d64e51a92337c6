import type { PutOn, TraceLot } from '@bakehouse/graph';
import { grouped, latestOf } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import { idsOf, rowsBy, type Computed, type TableRow } from '../../platform/database/index.js';
import { staysUnnamed, unnamedAtFirst } from '../../platform/ledger/index.js';
import type { Row } from '@bakehouse/records';
import { either } from './either.js';
import { nothingWent, type Went } from './went.query.js';

type Lot = TableRow<'lot'>;
interface LotRow extends Pick<Lot, 'id' | 'name' | 'type' | 'book' | 'material' | 'code' | 'mg' | 'pieces' | 'at'> {
  readonly unnamed: Computed<boolean>;
  readonly nobodyKnows: Computed<boolean>;
}
/** What other tables say of a lot; each fills the columns that it has something for. */
interface SaidRow {
  readonly what: Computed<'pieces' | 'code' | 'ended' | 'divided' | 'went-in' | 'put-on' | 'put-on-run' | 'put-on-make'>;
  readonly lot: Lot['id'];
  readonly code: Computed<Lot['code']>;
  readonly pieces: Computed<Lot['pieces']>;
  /** What one piece was scaled at, what came out, what there was to divide, all that went in, or what was put on so many pieces at least. */
  readonly mg: Computed<Lot['mg']>;
  readonly at: Computed<Lot['at'] | null>;
  /** How much less came out than went in, or how many pieces had left before something was put on. */
  readonly lost: Computed<Lot['mg']>;
  readonly onMaxMg: Computed<Lot['mg']>;
  /** Between when something may have been put on, or counted out, where its instant is not known exactly. */
  readonly earliest: Computed<Row<'flow'>['earliest']>;
  readonly latest: Computed<Row<'flow'>['latest']>;
}

/** What one piece of a lot was scaled at: of a batch by its run. */
const scaled = (lot: string): string => `
  LEFT JOIN LATERAL (SELECT sb.run FROM batch sb WHERE sb.organisation = $1 AND sb.id = ${lot} OFFSET 0) sb ON true
  LEFT JOIN LATERAL (SELECT s.scaling_mg FROM run s WHERE s.organisation = $1 AND s.id = ${either('sb.run', lot)} OFFSET 0) s ON true`;

/** All that went into lots, in milligrams, of their flows `f`: pieces by what one of them weighs, one of several lots once. Null where one line has no weight. */
const allThatWentIn = (flows: string): string => `
  SELECT one.target AS lot, CASE WHEN count(*) = count(one.mg) THEN sum(one.mg)::bigint END AS mg FROM (
    SELECT DISTINCT ON (f.target, coalesce(f.any_of, f.id)) f.target,
      CASE WHEN f.certain THEN coalesce(f.mg, f.pieces * s.scaling_mg) WHEN f.any_of IS NOT NULL THEN f.mg END AS mg
    FROM (SELECT f.id, f.target, f.any_of, f.certain, f.mg, f.pieces, CASE WHEN f.mg IS NULL THEN f.source END AS in_pieces FROM (${flows}) f OFFSET 0) f
    ${scaled('f.in_pieces')}) one GROUP BY one.target`;

/** All that ever came of what was put on without a weight: no more can have been; null where it may have been another lot, or that is not known either. */
const allOfIt = (flow: string): string => `CASE WHEN ${flow}.mg IS NULL AND ${flow}.any_of IS NULL THEN
        (SELECT a.mg FROM lot a WHERE a.organisation = $1 AND a.id = ${flow}.source AND a.type = 'received'
          AND NOT EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.same = a.id) OFFSET 0) END`;

/** How many pieces of a lot left it by a time or may have, also of what had been counted out of it; null where some left that nobody counted. */
const goneBefore = (lot: string, at: string): string =>
  `(SELECT CASE WHEN count(*) = count(w.pieces) THEN coalesce(sum(w.pieces), 0) END FROM (
      SELECT ${lot} AS id UNION ALL SELECT b.id FROM batch b WHERE b.organisation = $1 AND b.run = ${lot} OFFSET 0) l CROSS JOIN LATERAL (
      SELECT g.pieces FROM flow g WHERE g.organisation = $1 AND g.source = l.id AND g.type <> 'batched' AND coalesce(g.earliest, g.at) <= ${at}
      UNION ALL SELECT d.pieces FROM departure d WHERE d.organisation = $1 AND d.lot = l.id AND coalesce(d.earliest, d.at) <= ${at} OFFSET 0) w)`;

/**
 * What was put on the pieces of some lots, each that may be one of several once: at least what surely was, at most null where nothing bounds it. What is recorded for a make is on its pieces where
 * it was put on, before the oven or after it, and not surely before these were divided.
 */
const putOn = (lots: string): string => `
  SELECT CASE WHEN one.onto = one.lot THEN 'put-on' WHEN one.divided IS NULL THEN 'put-on-run' ELSE 'put-on-make' END, one.lot, NULL, one.pieces,
    CASE WHEN one.surely THEN coalesce(one.mg, 0) ELSE 0 END::bigint, one.at,
    ${goneBefore('CASE WHEN one.divided IS NULL THEN one.onto ELSE one.lot END', 'one.by')}::bigint, one.most, one.earliest, one.latest
  FROM (SELECT DISTINCT ON (l.lot, l.onto, coalesce(f.any_of, f.id)) l.lot, l.onto, l.pieces, l.divided, f.at, f.by, f.earliest, f.latest, f.mg, coalesce(f.mg, f.all_of_it) AS most,
      (f.certain OR (f.any_of IS NOT NULL AND count(*) OVER (PARTITION BY l.lot, l.onto, f.any_of) > 1)) AND (l.divided IS NULL OR (l.pieces IS NOT NULL AND l.divided < coalesce(f.earliest, f.at))) AS surely
    FROM (${lots}) l
    CROSS JOIN LATERAL (SELECT g.id, g.any_of, g.certain, g.mg, g.at, g.earliest, g.latest, coalesce(g.latest, g.at) AS by, ${allOfIt('g')} AS all_of_it FROM flow g
      WHERE g.organisation = $1 AND g.target = l.onto AND g.type NOT IN ('divided', 'batched') AND (l.divided IS NULL OR (g.type IN ('after-oven', 'aid') AND coalesce(g.latest, g.at) >= l.divided)) OFFSET 0) f) one`;

/** The lots without a weight of their own, that no pieces give them either. */
const notWeighed = `
  SELECT l.id FROM (${rowsBy('lot', 'id')}) l WHERE l.mg IS NULL
    AND NOT (l.type = 'batch' AND EXISTS (SELECT FROM (SELECT b.run FROM batch b WHERE b.organisation = $1 AND b.id = l.id OFFSET 0) b
      CROSS JOIN LATERAL (SELECT FROM run r WHERE r.organisation = $1 AND r.id = b.run OFFSET 0) r))`;

const lotRows = `
  SELECT l.id, l.name, l.type, ${unnamedAtFirst('l')} AS unnamed, ${staysUnnamed('l')} AS "nobodyKnows", l.code, l.book, l.material, l.mg, l.pieces, l.at
  FROM (${rowsBy('lot', 'id')}) l`;

/** Into what a make was divided, and when; of more than one product nobody knows which of them has what was put on the make. */
const dividedInto = (run: string): string => `
  SELECT d.divided, ${run}.pieces, d.runs FROM (SELECT max(o.at) FILTER (WHERE o.target = ${run}.id) AS divided, count(DISTINCT o.target) AS runs
    FROM flow o WHERE o.organisation = $1 AND o.source = ${run}.make AND o.type = 'divided' OFFSET 0) d`;

/** Lots that are pieces, each by itself, by the run that it was counted out of and by its make: what was put on those is on its pieces too. */
const pieced = `
  SELECT r.id AS lot, r.id AS onto, r.pieces, NULL::timestamptz AS divided FROM (${rowsBy('run', 'id')}) r
  UNION ALL SELECT b.id, b.id, b.pieces, NULL FROM (${rowsBy('batch', 'id')}) b
  UNION ALL SELECT b.id, b.run, r.pieces, NULL FROM (${rowsBy('batch', 'id')}) b
    CROSS JOIN LATERAL (SELECT pieces FROM run r WHERE r.organisation = $1 AND r.id = b.run OFFSET 0) r
  UNION ALL SELECT r.id, r.make, CASE WHEN d.runs = 1 THEN d.pieces END, d.divided FROM (${rowsBy('run', 'id')}) r CROSS JOIN LATERAL (${dividedInto('r')}) d WHERE d.divided IS NOT NULL
  UNION ALL SELECT b.id, r.make, CASE WHEN d.runs = 1 THEN d.pieces END, d.divided FROM (${rowsBy('batch', 'id')}) b
    CROSS JOIN LATERAL (SELECT id, make, pieces FROM run r WHERE r.organisation = $1 AND r.id = b.run OFFSET 0) r CROSS JOIN LATERAL (${dividedInto('r')}) d WHERE d.divided IS NOT NULL`;

/** Of more than one division nobody knows which of them a weight is about. */
const saidRows = `
  SELECT 'pieces' AS what, b.id AS lot, b.code, b.pieces, r.scaling_mg AS mg, NULL::timestamptz AS at, NULL::bigint AS "lost",
    NULL::bigint AS "onMaxMg", c.earliest, NULL::timestamptz AS latest FROM (${rowsBy('batch', 'id')}) b
  LEFT JOIN LATERAL (SELECT f.earliest FROM flow f WHERE f.organisation = $1 AND f.target = b.id AND f.type = 'batched' AND f.source = b.run OFFSET 0) c ON true
  LEFT JOIN LATERAL (SELECT scaling_mg FROM run r WHERE r.organisation = $1 AND r.id = b.run OFFSET 0) r ON true
  UNION ALL SELECT 'pieces', id, NULL, NULL, scaling_mg, NULL, NULL, NULL, NULL, NULL FROM (${rowsBy('run', 'id')}) r
  UNION ALL (SELECT DISTINCT ON (lot) 'code', lot, code, NULL::bigint, NULL::bigint, NULL::timestamptz, NULL::bigint, NULL::bigint, NULL::timestamptz, NULL::timestamptz FROM (${rowsBy('lot_identified', 'lot')}) i
    WHERE code IS NOT NULL ORDER BY lot, seq DESC)
  UNION ALL SELECT 'ended', e.make, NULL, NULL, e.mg, e.at, before.mg - e.mg, NULL, NULL, NULL FROM (
    SELECT DISTINCT ON (make) make, mg, at FROM (${rowsBy('make_ended', 'make')}) m WHERE mg IS NOT NULL ORDER BY make, at DESC, seq DESC) e
  LEFT JOIN LATERAL (${allThatWentIn('SELECT * FROM flow g WHERE g.organisation = $1 AND g.target = e.make AND g.at <= e.at')}) before ON true
  UNION ALL SELECT 'divided', make, NULL, NULL, max(weighed_mg), max(at), NULL, NULL, NULL, NULL FROM (${rowsBy('divided', 'make')}) d
  GROUP BY make HAVING count(*) = 1 AND count(weighed_mg) = 1
  UNION ALL SELECT 'went-in', w.lot, NULL, NULL, w.mg, NULL, NULL, NULL, NULL, NULL FROM (${allThatWentIn(rowsBy('flow', 'target', notWeighed))}) w
  UNION ALL (${putOn(pieced)})`;

export interface LotsOfTrace {
  readonly lots: ReadonlyMap<string, TraceLot>;
  /** Those that nobody could name when they were used, and nobody has since. */
  readonly nobodyKnows: ReadonlySet<string>;
}

/** What the tables say of some lots, before it is put together. */
export interface LotsRead {
  readonly rows: readonly LotRow[];
  readonly said: readonly SaidRow[];
}

/** Each table is asked about all lots at once: few lots are in more than one or two. */
export async function readLots(client: ClientBase, organisation: string, ids: readonly string[]): Promise<LotsRead> {
  if (ids.length === 0) return { rows: [], said: [] };
  const values = [organisation, idsOf(ids)];
  const [{ rows }, { rows: said }] = await Promise.all([
    client.query<LotRow>({ name: 'lots of a trace', text: lotRows, values }),
    client.query<SaidRow>({ name: 'what is said of lots of a trace', text: saidRows, values }),
  ]);
  return { rows, said };
}

/** Lots with the code that they are known by now: their own, or the one that an identification gave them; and with what surely went of those in doubt. */
export function lotsOf({ rows, said: others }: LotsRead, went: ReadonlyMap<string, Went>): LotsOfTrace {
  const said = grouped(others, (row) => row.what);
  const by = (what: SaidRow['what']): ReadonlyMap<string, SaidRow> => new Map((said.get(what) ?? []).map((row) => [row.lot, row]));
  const putOnOf = (...what: SaidRow['what'][]) =>
    grouped(
      what.flatMap((one) => said.get(one) ?? []),
      (row) => row.lot,
    );
  const [put, putOnMake, putOnRun] = [putOnOf('put-on'), putOnOf('put-on-make'), putOnOf('put-on-run')];
  const [pieces, codes, ended, divided, wentIn] = [by('pieces'), by('code'), by('ended'), by('divided'), by('went-in')];
  const asFound = (l: LotRow): TraceLot => {
    const [of, end, before] = [pieces.get(l.id), ended.get(l.id), divided.get(l.id)];
    const inPieces = of && of.pieces !== null && of.mg !== null ? of.pieces * of.mg : null;
    const last = end === undefined || (before !== undefined && (before.at ?? '') > (end.at ?? '')) ? before : end;
    const { awayMg, leftMg, leftAt } = went.get(l.id) ?? nothingWent;
    const all = l.pieces ?? of?.pieces ?? null;
    return {
      id: l.id,
      name: l.name,
      type: l.type,
      unnamed: l.unnamed,
      code: l.code ?? of?.code ?? codes.get(l.id)?.code ?? null,
      book: l.book,
      material: l.material,
      mg: l.mg ?? inPieces ?? wentIn.get(l.id)?.mg ?? null,
      pieces: all,
      pieceMg: of?.mg ?? null,
      putOn: [
        ...[...(put.get(l.id) ?? []), ...(l.type === 'batch' ? [] : (putOnMake.get(l.id) ?? []))].map(putOnIt),
        ...[...(putOnRun.get(l.id) ?? []), ...(l.type === 'batch' ? (putOnMake.get(l.id) ?? []) : [])].map((row) =>
          partPutOn(all, of?.earliest ?? l.at, row),
        ),
      ],
      outMg: last?.mg ?? null,
      outAt: last?.at ?? null,
      lostMg: end?.lost ?? null,
      // Nobody records yet how much of a loss was water.
      evaporatedMg: null,
      at: l.at,
      awayMg,
      leftMg,
      leftAt,
    };
  };
  return {
    lots: new Map(rows.map((row) => [row.id, asFound(row)])),
    nobodyKnows: new Set(rows.flatMap((row) => (row.nobodyKnows ? row.id : []))),
  };
}

const putOnIt = ({ at, earliest, latest, mg, onMaxMg, lost: gone }: SaidRow): PutOn => ({
  ...{ at: at ?? '', earliest, latest, minMg: mg ?? 0 },
  ...{ maxMg: onMaxMg, gone },
});

/**
 * Of what was put on a run, the part of so many pieces: those that were still there share it. Of what had been counted out before, nobody knows whether it
 * was put on these as well: all of it, or none.
 */
function partPutOn(pieces: number | null, since: string, row: SaidRow): PutOn {
  const on = putOnIt(row);
  if (pieces === null || !row.pieces) return { ...on, gone: null };
  if (since <= latestOf(on)) return { ...on, minMg: 0, gone: 0 };
  const of = Math.max(pieces, on.gone === null ? 0 : row.pieces - on.gone);
  return {
    ...on,
    minMg: Math.floor((on.minMg * pieces) / row.pieces),
    maxMg: on.maxMg === null ? null : Math.min(on.maxMg, Math.ceil((on.maxMg * pieces) / of)),
    gone: 0,
  };
}
