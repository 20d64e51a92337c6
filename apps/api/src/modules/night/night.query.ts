import type { CollectionName } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import { inTheHouse } from './in-the-house.query.js';
import { snake, table, tables, type BookRef } from '../../platform/ledger/index.js';

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
  'place',
  'placeOut',
  'instrument',
  'instrumentOut',
  // closed cases too: what a case holds is decided on in it after it was closed, and a device decides first
  'recallCase',
  'recallClosed',
];
/** A device gives no roles, and it traces nothing by itself: of a recall it holds the case and its calls, so that one can be rung without a network. */
const elsewhere: readonly CollectionName[] = ['roleGiven', 'roleTaken', 'accessGiven', 'accessEnded', 'recallScopeLot'];
const openCases =
  '(SELECT k.id FROM recall_case k WHERE k.organisation = $1 AND NOT EXISTS (SELECT 1 FROM recall_closed x WHERE x.organisation = k.organisation AND x.recall = k.id))';

/** Rows about lots from before that the night may still be about ($5): a run's and a batch's lot have its id, a make's too. */
const alsoOf: Partial<Record<CollectionName, readonly string[]>> = {
  make: ['id'],
  run: ['id'],
  batch: ['id'],
  lot: ['id'],
  loadLine: ['run'],
  release: ['batch'],
  flow: ['source', 'target'],
  departure: ['lot'],
  returned: ['lot'],
  counted: ['lot'],
  onCounter: ['lot'],
  divided: ['make'],
};

/** Which rows of each collection a night needs, given the site ($2), the first instant ($3) and the last ($4). */
const conditions: Partial<Record<CollectionName, string>> = {
  place: 'book = $2',
  placeOut: 'book = $2',
  instrument: 'book = $2',
  instrumentOut: 'book = $2',
  planVersion: '(site IS NULL OR site = $2)',
  controlPoint:
    'plan IN (SELECT id FROM plan_version WHERE organisation = $1 AND (site IS NULL OR site = $2) ORDER BY since DESC, seq DESC LIMIT 8)',
  // what is open now may have been opened long ago, and its lot have come longer ago still
  inUse:
    'book = $2 AND (at BETWEEN $3 AND $4 OR NOT EXISTS (SELECT 1 FROM emptied e WHERE e.organisation = t.organisation AND e.lot = t.lot AND e.station = t.station AND e.at >= t.at))',
  lot: `(book = $2 AND at BETWEEN $3 AND $4) OR id IN (SELECT u.lot FROM in_use u WHERE u.organisation = $1 AND u.book = $2)
        OR id IN (SELECT l.id FROM lot l WHERE l.organisation = $1 AND l.book = $2 AND l.type IN ('received', 'placeholder', 'vessel') ORDER BY l.at DESC LIMIT 400)`,
  hold: 'NOT EXISTS (SELECT 1 FROM hold_lifted f WHERE f.organisation = t.organisation AND f.hold = t.id) OR at BETWEEN $3 AND $4',
  recallContact: `recall IN ${openCases}`,
  receiptDecision: "at BETWEEN $3::timestamptz - interval '60 days' AND $4",
  lotIdentified: "at BETWEEN $3::timestamptz - interval '60 days' AND $4",
  moved: "book = $2 AND at BETWEEN $3::timestamptz - interval '60 days' AND $4",
  // and the last one before of each instrument, which tells whether it can be trusted now
  instrumentCheck:
    'book = $2 AND (at BETWEEN $3 AND $4 OR at = (SELECT max(c.at) FROM instrument_check c WHERE c.organisation = $1 AND c.instrument = t.instrument AND c.at < $3))',
  // what a decision took out of the house, however long after the food came, and in the book of the organisation where a case decided it
  departure: `(book = $2 AND at BETWEEN $3 AND $4) OR (EXISTS (SELECT 1 FROM lot l WHERE l.organisation = $1 AND l.id = t.lot AND l.book = $2)
        AND trip IN (SELECT d.id FROM recall_decision d WHERE d.organisation = $1 UNION ALL SELECT d.id FROM disposition d WHERE d.organisation = $1 AND d.book = $2))`,
  // what is still open stays on the table until somebody closes it
  deviation:
    'book = $2 AND (at BETWEEN $3 AND $4 OR NOT EXISTS (SELECT 1 FROM deviation_closed c WHERE c.organisation = t.organisation AND c.deviation = t.id))',
  correctiveAction: 'book = $2 AND deviation IN (SELECT id FROM deviation d WHERE d.organisation = $1 AND d.book = $2)',
  disposition: 'book = $2 AND deviation IN (SELECT id FROM deviation d WHERE d.organisation = $1 AND d.book = $2)',
};

function conditionFor(name: CollectionName): string {
  const also = (alsoOf[name] ?? []).map((column) => ` OR "${column}" = ANY($5)`).join('');
  return `(${ownCondition(name)})${also}`;
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
export const nightStatement = held
  .map(
    (name) =>
      `SELECT '${name}' AS collection, (SELECT coalesce(json_agg(r), '[]') FROM (SELECT ${table(name).asJson} FROM "${table(name).name}" t WHERE organisation = $1 AND $2::uuid IS NOT NULL AND $3::timestamptz <= $4::timestamptz AND cardinality($5::uuid[]) >= 0 AND (${conditionFor(name)}) ORDER BY id) r) AS rows`,
  )
  .join(' UNION ALL ');

/** Whom to ring at a supplier's or a customer's stays out of a device's snapshot: a table needs their names, and a lost tablet would give away the rest. */
const withheld: Partial<Record<CollectionName, Readonly<Record<string, null>>>> = {
  party: { contactName: null, phone: null, email: null, address: null },
};

interface Gathered {
  readonly collection: Computed<CollectionName>;
  readonly rows: Computed<readonly NightRow[]>;
}

/** One question for all of them, however long the night. Rows are as the kinds wrote them, so that a tablet can decide with them. */
export async function nightRows(client: ClientBase, site: BookRef, from: string, until: string): Promise<NightRows> {
  const { rows } = await client.query<Gathered>({
    name: 'night',
    text: nightStatement,
    values: [site.organisation, site.id, from, until, await inTheHouse(client, site, from)],
  });
  return Object.fromEntries(
    rows.map(({ collection, rows: found }) => {
      const hidden = withheld[collection];
      return [collection, hidden ? found.map((row) => ({ ...row, ...hidden })) : found];
    }),
  );
}
