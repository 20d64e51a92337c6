import type { CollectionName } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import { listsBehind, type ListBehind } from './behind.query.js';
import { cameAndStillHere, inTheHouse, type InTheHouse } from './in-the-house.query.js';
import { openDeviations, openHolds, snake, table, tables, watched, type BookRef } from '../../platform/ledger/index.js';

type NightRow = Pick<TableRow<'lot'>, 'id'> & Record<string, unknown>;
export type NightRows = Partial<Record<CollectionName, readonly NightRow[]>>;

/** In force: the organisation's own reference rows, however old. */
const reference: readonly CollectionName[] = [
  'person',
  'personLeft',
  'specification',
  'party',
  'partyStopped',
  'formulaVersion',
  'formulaRetired',
  'planVersion',
  'planLife',
  'place',
  'placeOut',
  'instrument',
  'instrumentOut',
  'placeHold',
  'placeHoldEnded',
  // closed cases too: what a case holds is decided on in it after it was closed, and a device decides first
  'recallCase',
  'recallClosed',
];
/** A device gives no roles, and it traces nothing by itself: of a recall it holds the case and its calls, so that one can be rung without a network. */
const elsewhere: readonly CollectionName[] = ['roleGiven', 'roleTaken', 'accessGiven', 'accessEnded', 'recallScopeLot'];
const openCases =
  '(SELECT k.id FROM recall_case k WHERE k.organisation = $1 AND NOT EXISTS (SELECT 1 FROM recall_closed x WHERE x.organisation = k.organisation AND x.recall = k.id))';

type List = 'opening' | 'night_deviation' | 'night_hold' | ListBehind;
/** What a list of a WITH names, as an array: so that it is looked up by index, whatever the planner takes the list to hold. */
const among = (list: List): string => `ANY(ARRAY(SELECT id FROM ${list}))`;
/** Rows that name lots, and the fields that do: what these days' records are about is there with them. */
const naming: Partial<Record<CollectionName, string>> = {
  flow: 'source',
  emptied: 'lot',
  departure: 'lot',
  returned: 'lot',
  counted: 'lot',
  moved: 'lot',
  onCounter: 'lot',
  receiptDecision: 'lot',
};
const namedInTheseDays = [...tables]
  .flatMap(([name, { name: of }]) => {
    const field = naming[name];
    return field === undefined
      ? []
      : [`UNION SELECT n.${field} FROM ${of} n WHERE n.organisation = $1 AND n.book = $2 AND n.at BETWEEN $3 AND $4`];
  })
  .join('\n    ');

/**
 * What several collections go by, once for all of them: what is open or was opened in these days, found station by station and material by material, back
 * to the opening that replaced what was there before (as `openAt` says); the lots that the night may be about; the deviations and holds that are open or of these days.
 */
const lists = `WITH RECURSIVE ${watched}, pair(station, material) AS (
    (SELECT u.station, u.material FROM in_use u WHERE u.organisation = $1 ORDER BY u.station, u.material LIMIT 1)
    UNION ALL SELECT n.station, n.material FROM pair p CROSS JOIN LATERAL (
      SELECT u.station, u.material FROM in_use u WHERE u.organisation = $1 AND (u.station, u.material) > (p.station, p.material)
      ORDER BY u.station, u.material LIMIT 1) n
  ), opening(id, lot) AS MATERIALIZED (
    SELECT o.id, o.lot FROM pair p CROSS JOIN LATERAL (
      SELECT coalesce((SELECT b.at FROM in_use b WHERE b.organisation = $1 AND b.station = p.station AND b.material = p.material
        AND b.at < $3 AND NOT b.beside ORDER BY b.at DESC LIMIT 1), '-infinity') AS at OFFSET 0) since CROSS JOIN LATERAL (
      SELECT u.id, u.lot, u.at FROM in_use u WHERE u.organisation = $1 AND u.station = p.station AND u.material = p.material AND u.book = $2
        AND u.at >= since.at AND (u.at BETWEEN $3 AND $4 OR NOT EXISTS (SELECT FROM emptied e WHERE e.organisation = $1 AND e.lot = u.lot AND e.station = u.station AND e.at >= u.at))
      OFFSET 0) o
  ), night_lot(id) AS MATERIALIZED (
    SELECT l.id FROM lot l WHERE l.organisation = $1 AND l.book = $2 AND l.at BETWEEN $3 AND $4
    UNION SELECT lot FROM opening
    UNION ${cameAndStillHere}
    ${namedInTheseDays}
    UNION SELECT unnest($5::uuid[])
  )${listsBehind}, night_deviation(id) AS MATERIALIZED (
    SELECT d.id FROM deviation d WHERE d.organisation = $1 AND d.book = $2 AND d.at BETWEEN $3 AND $4
    UNION SELECT d.id FROM (${openDeviations}) d WHERE d.book = $2
    UNION SELECT d.id FROM behind_subject b CROSS JOIN LATERAL (SELECT id FROM deviation WHERE organisation = $1 AND subject = b.id OFFSET 0) d
  ), night_hold(id) AS MATERIALIZED (
    SELECT id FROM hold WHERE organisation = $1 AND book = $2 AND at BETWEEN $3 AND $4
    UNION SELECT h.id FROM (${openHolds}) o CROSS JOIN LATERAL (
      SELECT id FROM hold WHERE organisation = $1 AND id = o.id AND (book = $2 OR lot IN (SELECT id FROM named_lot)) OFFSET 0) h
  ) `;

/**
 * Rows about lots from before that the night may still be about, and about what those are made of, by the fields that name them, each looked up in one list: what they wait
 * for follows from these, and how long what was made keeps. A run's and a batch's lot have its id.
 */
const alsoOf: Partial<Record<CollectionName, Readonly<Record<string, List>>>> = {
  make: { id: 'older_make' },
  makeEnded: { make: 'night_lot' },
  run: { id: 'older' },
  // what was baked before and went in again waits for its own readings
  batch: { id: 'older' },
  loadLine: { id: 'behind_line' },
  load: { id: 'behind_subject' },
  loadStep: { load: 'behind_subject' },
  reading: { subject: 'behind_subject' },
  readingNotTaken: { subject: 'behind_subject' },
  deviationClosed: { deviation: 'night_deviation' },
  release: { batch: 'asked_lot' },
  flow: { source: 'asked_lot', target: 'older' },
  lotIdentified: { lot: 'named_lot' },
  returned: { lot: 'asked_lot' },
  counted: { lot: 'counted_lot' },
  onCounter: { lot: 'asked_lot' },
  divided: { make: 'counted_lot' },
};

/** Which rows of each collection a night needs, given the site ($2), the first instant ($3) and the last ($4). */
const conditions: Partial<Record<CollectionName, string>> = {
  place: 'book = $2',
  placeOut: 'book = $2',
  instrument: 'book = $2',
  instrumentOut: 'book = $2',
  planVersion: '(site IS NULL OR site = $2)',
  controlPoint: `plan = ANY(ARRAY(
        (SELECT id FROM plan_version WHERE organisation = $1 AND (site IS NULL OR site = $2) ORDER BY since DESC, seq DESC LIMIT 8)
        UNION SELECT plan FROM make WHERE organisation = $1 AND id = ${among('behind')}))`,
  // what is open now may have been opened long ago, and its lot have come longer ago still
  inUse: `id = ${among('opening')}`,
  // what nobody could name may be a lot that is long gone: it takes one to know that it may, and its counts to know that it is not here
  lot: `id = ${among('shown_lot')}`,
  hold: `id = ${among('night_hold')}`,
  recallContact: `recall IN ${openCases}`,
  recallNotified: `recall IN ${openCases}`,
  receiptDecision: `(book = $2 AND at BETWEEN $3 AND $4) OR lot = ${among('night_lot')}`,
  moved: `(book = $2 AND at BETWEEN $3 AND $4) OR lot = ${among('night_lot')}`,
  // and the last one before of each instrument, which tells whether it can be trusted now
  instrumentCheck: `(book = $2 AND at BETWEEN $3 AND $4) OR id = ANY(ARRAY(
        SELECT c.id FROM instrument i CROSS JOIN LATERAL (
          SELECT id FROM instrument_check WHERE organisation = $1 AND instrument = i.id AND book = $2 AND at < $3 ORDER BY at DESC LIMIT 1) c
        WHERE i.organisation = $1 AND i.book = $2))`,
  // what a decision took out of the house, however long after the food came, and in the book of the organisation where a case decided it
  departure: `id = ANY(ARRAY(
        SELECT d.id FROM departure d WHERE d.organisation = $1 AND d.book = $2 AND d.at BETWEEN $3 AND $4
        UNION ALL SELECT d.id FROM night_lot n CROSS JOIN LATERAL (
          SELECT id FROM departure WHERE organisation = $1 AND lot = n.id AND decided IS NOT NULL OFFSET 0) d
        UNION ALL SELECT d.id FROM unnest($5::uuid[]) o(lot) CROSS JOIN LATERAL (SELECT id FROM departure WHERE organisation = $1 AND lot = o.lot OFFSET 0) d))`,
  // what is still open stays on the table until somebody closes it
  deviation: `id = ${among('night_deviation')}`,
  correctiveAction: `(book = $2 AND at BETWEEN $3 AND $4) OR deviation = ${among('night_deviation')}`,
  disposition: `(book = $2 AND at BETWEEN $3 AND $4) OR deviation = ${among('night_deviation')} OR subject = ${among('night_lot')}`,
};

function conditionFor(name: CollectionName): string {
  const also = Object.entries(alsoOf[name] ?? {}).map(([field, list]) => ` OR "${snake(field)}" = ${among(list)}`);
  return `(${ownCondition(name)})${also.join('')}`;
}

function ownCondition(name: CollectionName): string {
  const own = conditions[name];
  if (own !== undefined) return own;
  if (reference.includes(name)) return 'true';
  const timed = table(name).fields.find(([field]) => field === 'at' || field === 'receivedAt' || field === 'since');
  return timed ? `book = $2 AND "${snake(timed[0])}" BETWEEN $3 AND $4` : 'book = $2';
}

const held = [...tables.keys()].filter((name) => !elsewhere.includes(name));

/**
 * Every collection that a device holds, in one statement: a line a collection, its rows as JSON that PostgreSQL makes, which is several times less work here than columns. Its
 * parameters are the organisation, the site, the first instant, the last, and older lots.
 */
export const nightStatement = `${lists}${held
  .map(
    (name) =>
      `SELECT '${name}' AS collection, (SELECT coalesce(json_agg(r), '[]') FROM (SELECT ${table(name).asJson} FROM "${table(name).name}" t WHERE organisation = $1 AND $2::uuid IS NOT NULL AND $3::timestamptz <= $4::timestamptz AND cardinality($5::uuid[]) >= 0 AND (${conditionFor(name)}) ORDER BY id) r) AS rows`,
  )
  .join(' UNION ALL ')}`;

/** Whom to ring at a supplier's or a customer's stays out of a device's snapshot: a table needs their names, and a lost tablet would give away the rest. */
const withheld: Partial<Record<CollectionName, Readonly<Record<string, null>>>> = {
  party: { contactName: null, phone: null, email: null, address: null },
};

interface Gathered {
  readonly collection: Computed<CollectionName>;
  readonly rows: Computed<readonly NightRow[]>;
}

export interface NightFound {
  readonly rows: NightRows;
  /** Older lots that may be here and are not among the rows. */
  readonly leftOut: InTheHouse['leftOut'];
  readonly sizes: InTheHouse['sizes'];
}

/** One question for all of them, however long the night. Rows are as the kinds wrote them, so that a tablet can decide with them. */
export async function nightRows(client: ClientBase, site: BookRef, from: string, until: string): Promise<NightFound> {
  const { lots, leftOut, sizes } = await inTheHouse(client, site, from);
  const { rows } = await client.query<Gathered>({
    name: 'night',
    text: nightStatement,
    values: [site.organisation, site.id, from, until, lots],
  });
  const found = rows.map(({ collection, rows: all }) => {
    const hidden = withheld[collection];
    return [collection, hidden ? all.map((row) => ({ ...row, ...hidden })) : all] as const;
  });
  return { rows: Object.fromEntries(found), leftOut, sizes };
}
