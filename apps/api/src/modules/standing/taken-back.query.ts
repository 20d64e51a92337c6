import { allowedNeeds, allowedSince, tellsOfUse, type HeldUse, type Row, type TakenBack } from '@bakehouse/records';
import { idsIn, takenBackOf, type RecordBehind } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { loadState, readStored, table, type BookRef } from '../../platform/ledger/index.js';
import { namesOf } from './names-of.query.js';

type Bytes = Maybe<TableRow<'entryBody'>>['bytes'];
interface BehindRow extends Pick<Row<'deviation'>, 'id' | 'type'> {
  readonly entry: TableRow<'deviation'>['entry'];
  readonly now: TableRow<'entry'>['id'];
  readonly kind: TableRow<'entry'>['kind'];
  readonly toldBytes: Bytes;
  readonly nowBytes: Bytes;
  readonly readings: Computed<readonly Row<'reading'>[]>;
}

/**
 * Of these deviations, those whose record was withdrawn or corrected so that it does not tell of them any more, and those that later records answer (`allowedSince`). The row of a deviation stays as the last version
 * that told of it wrote it; which version counts now stands in the columns of the entries, also where a body is withheld. Only what was corrected at all is read.
 */
export async function takenBack(client: ClientBase, books: readonly BookRef[], deviations: readonly string[]): Promise<TakenBack[]> {
  const organisation = books[0]?.organisation;
  if (deviations.length === 0 || organisation === undefined) return [];
  const back = await ofTheirRecords(client, organisation, deviations);
  const known = new Set(back.map((b) => b.id));
  const { rows } = await client.query<HeldUse>({
    name: 'taken back: uses',
    text: 'SELECT id, type, subject, lot, at FROM unnest($2::uuid[]) a(one) CROSS JOIN LATERAL (SELECT * FROM deviation WHERE organisation = $1 AND id = a.one OFFSET 0) d ORDER BY id',
    values: [organisation, deviations],
  });
  const used = rows.filter((d) => tellsOfUse(d) && !known.has(d.id));
  if (used.length === 0) return back;
  const state = await loadState(client, books, (now) => allowedNeeds(now, used));
  const allowed = used.flatMap((d): TakenBack[] => (allowedSince(state, d) ? [{ id: d.id, as: 'allowed', says: null }] : []));
  return [...back, ...allowed];
}

async function ofTheirRecords(client: ClientBase, organisation: string, deviations: readonly string[]): Promise<TakenBack[]> {
  const { rows } = await client.query<BehindRow>({ name: 'taken back', text: behind, values: [organisation, deviations] });
  const found = rows.map(({ id, type, entry, now, kind, toldBytes, nowBytes, readings }): RecordBehind => ({
    deviation: { id, type },
    told: { entry, kind, input: inputOf(toldBytes) },
    now: { entry: now, kind, input: inputOf(nowBytes) },
    readings,
  }));
  const ids = idsIn(found.flatMap((f) => [f.told, f.now]));
  const names = ids.length === 0 ? null : await namesOf(client, organisation, ids);
  return found.flatMap((f) => takenBackOf(f, (it) => names?.get(it) ?? null) ?? []);
}

const body = (of: string): string =>
  `LEFT JOIN entry_body ${of}_body ON n.id <> d.entry AND n.kind <> 'entry-withdrawn' AND ${of}_body.organisation = $1 AND ${of}_body.book = ${of}.book AND ${of}_body.seq = ${of}.seq`;
const behind = `SELECT d.id, d.type, d.entry, n.id AS now, n.kind, o_body.bytes AS "toldBytes", n_body.bytes AS "nowBytes",
    coalesce((SELECT json_agg(r) FROM (SELECT ${table('reading').asJson} FROM reading t WHERE t.organisation = $1 AND t.subject = d.subject AND t.entry = n.id) r), '[]') AS readings
  FROM unnest($2::uuid[]) a(id)
    CROSS JOIN LATERAL (SELECT id, type, entry, subject FROM deviation WHERE organisation = $1 AND id = a.id OFFSET 0) d
    CROSS JOIN LATERAL (SELECT book, seq, root FROM entry WHERE organisation = $1 AND id = d.entry OFFSET 0) o
    CROSS JOIN LATERAL (SELECT id, book, seq, kind, root FROM entry WHERE organisation = $1 AND root = o.root ORDER BY seq DESC LIMIT 1) n
    ${body('o')} ${body('n')}
  WHERE n.id <> n.root ORDER BY d.id`;

const inputOf = (bytes: Buffer | null): RecordBehind['now']['input'] => {
  if (bytes === null) return null;
  const { read, stamp } = readStored(bytes);
  return { at: stamp.recordedAt, doneBy: null, payload: read.payload };
};
