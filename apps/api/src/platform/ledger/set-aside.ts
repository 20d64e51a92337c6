import type { ClientBase } from 'pg';
import { uuidv7 } from '../ids/index.js';
import type { Computed } from '../database/index.js';
import type { Job, Result } from './types.js';

/** What is recorded, by id. */
type Recorded = Pick<ReadonlyMap<string, unknown>, 'has'>;

/**
 * Keeps what was refused or is waiting, as it came, so that a dead tablet loses nothing: once, however often it is sent. Signature tokens never stay in it.
 * What there is no room for is not kept, and a refusal then says so in `results`: the device still holds it.
 */
export async function keepSetAside(
  client: ClientBase,
  jobs: readonly Job[],
  results: Result[],
  known: Recorded,
  at: string,
): Promise<void> {
  const rows = results.flatMap((r, i) => {
    const job = jobs[i];
    return job && (r.as === 'refused' || r.as === 'waiting') ? [{ i, job, row: rowOf(job, r, known, at) }] : [];
  });
  if (rows.length === 0) return;
  const full = await withoutRoom(client, rows, at);
  for (const { i, row } of rows) {
    const one = results[i];
    if (full.has(row.id) && one?.as === 'refused') results[i] = { as: 'refused', id: one.id, problem: 'too-many-set-aside' };
  }
  await client.query({
    name: 'set aside entry',
    text: `INSERT INTO set_aside SELECT * FROM json_populate_recordset(NULL::set_aside, $1::json) n
            WHERE NOT EXISTS (SELECT 1 FROM set_aside h WHERE h.organisation = n.organisation AND h.entry = n.entry
                              AND h."as" = n."as" AND h.problem IS NOT DISTINCT FROM n.problem AND h.body = n.body)`,
    values: [storable(JSON.stringify(rows.flatMap(({ row }) => (full.has(row.id) ? [] : [row]))))],
  });
}

const rowOf = (job: Job, r: Extract<Result, { as: 'refused' | 'waiting' }>, known: Recorded, at: string) => ({
  organisation: job.book.organisation,
  book: job.book.id,
  id: uuidv7(new Date(at)),
  // What could not be read is nothing of a record that has its id already.
  entry: !job.read.ok && job.id !== null && known.has(job.id) ? null : job.id,
  as: r.as,
  problem: r.as === 'refused' ? r.problem : null,
  field: r.as === 'refused' ? (r.field ?? null) : null,
  person: job.asker.person,
  received_at: at,
  body: { entry: kept(job.raw) },
  device: job.asker.device,
});

/** What is kept of what is refused or waits: for a device in 24 hours (for a person, where there is no device), and for a house in all. */
export const setAsideLimits = { entriesOfDay: 5_000, bytesOfDay: 50 * 1024 * 1024, entriesOfHouse: 50_000 };

interface Kept {
  readonly of: Computed<number>;
  readonly bytes: Computed<number>;
  readonly house: Computed<number>;
  readonly there: Computed<readonly string[]>;
}

/** Which of these rows there is no room for. One that is kept already needs none. */
async function withoutRoom(
  client: ClientBase,
  rows: readonly { readonly job: Job; readonly row: ReturnType<typeof rowOf> }[],
  at: string,
): Promise<ReadonlySet<string>> {
  const full = new Set<string>();
  const senders = new Map<string, { of: number; bytes: number; house: number; there: ReadonlySet<string> }>();
  for (const { row } of rows) {
    const sender = row.device ?? row.person;
    const found = senders.get(sender) ?? (await keptOf(client, rows, row, at));
    senders.set(sender, found);
    if (row.entry !== null && found.there.has(row.entry)) continue;
    const bytes = Buffer.byteLength(JSON.stringify(row.body));
    const isFull =
      found.of >= setAsideLimits.entriesOfDay ||
      found.bytes + bytes > setAsideLimits.bytesOfDay ||
      found.house >= setAsideLimits.entriesOfHouse;
    if (isFull) full.add(row.id);
    else
      for (const one of senders.values())
        [one.house, one.of, one.bytes] = [one.house + 1, one.of + Number(one === found), one.bytes + (one === found ? bytes : 0)];
  }
  return full;
}

async function keptOf(
  client: ClientBase,
  rows: readonly { readonly row: ReturnType<typeof rowOf> }[],
  { organisation, device, person }: ReturnType<typeof rowOf>,
  at: string,
): Promise<{ of: number; bytes: number; house: number; there: ReadonlySet<string> }> {
  const { rows: found } = await client.query<Kept>({
    name: 'kept of what was set aside',
    text: `SELECT count(*)::int AS of, coalesce(sum(pg_column_size(body)), 0)::float8 AS bytes,
             (SELECT count(*)::int FROM (SELECT FROM set_aside WHERE organisation = $1 LIMIT $5) h) AS house,
             ARRAY(SELECT DISTINCT entry FROM set_aside WHERE organisation = $1 AND entry = ANY($6::uuid[])) AS there
           FROM set_aside WHERE organisation = $1 AND received_at > $4::timestamptz - interval '24 hours'
             AND device IS NOT DISTINCT FROM $2 AND ($2::uuid IS NOT NULL OR person = $3)`,
    values: [organisation, device, person, at, setAsideLimits.entriesOfHouse, rows.flatMap(({ row }) => row.entry ?? [])],
  });
  const [kept] = found;
  return { of: kept?.of ?? 0, bytes: kept?.bytes ?? 0, house: kept?.house ?? 0, there: new Set(kept?.there) };
}

/** Of what these entries come after and that is neither recorded nor among them, what was refused in an earlier sending: nobody need wait for it. */
export async function refusedBefore(client: ClientBase, organisation: string, jobs: readonly Job[], known: Recorded): Promise<Set<string>> {
  const sent = new Set(jobs.flatMap((j) => j.id ?? []));
  const after = jobs.flatMap((j) => (j.read.ok ? (j.read.envelope.after ?? []) : [])).filter((id) => !known.has(id) && !sent.has(id));
  if (after.length === 0) return new Set();
  const { rows } = await client.query<{ readonly id: Computed<string> }>({
    name: 'refused before',
    text: `SELECT a.id FROM unnest($2::uuid[]) a(id) CROSS JOIN LATERAL (
             SELECT 1 FROM set_aside s WHERE s.organisation = $1 AND s.entry = a.id AND s."as" = 'refused' AND s.problem <> 'fault' LIMIT 1) s`,
    values: [organisation, [...new Set(after)]],
  });
  return new Set(rows.map((r) => r.id));
}

/** Deeper than any record goes. */
const maxDepth = 40;

/** A copy without signature tokens, wherever they stand, and cut short where it nests deeper than anything that could be meant. */
function kept(value: unknown, depth = 0): unknown {
  if (typeof value !== 'object' || value === null) return value ?? null;
  if (depth === maxDepth) return 'nested too deeply to keep';
  if (Array.isArray(value)) return value.map((one) => kept(one, depth + 1));
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, one]) => (key === 'send' || key === 'signature' ? [] : [[key, kept(one, depth + 1)]])),
  );
}

/** PostgreSQL's jsonb has no NUL and no lone surrogates: they are shown as the replacement character in what is kept. */
const storable = (json: string): string => json.replace(/\\u0000|\\ud[89a-f][0-9a-f]{2}/gi, '\\ufffd');
