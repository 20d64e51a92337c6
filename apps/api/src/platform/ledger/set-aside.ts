import type { ClientBase } from 'pg';
import { uuidv7 } from '../ids/index.js';
import type { Computed } from '../database/index.js';
import type { Job, Result } from './types.js';

/** What is recorded, by id. */
type Recorded = Pick<ReadonlyMap<string, unknown>, 'has'>;

/** Keeps what was refused or is waiting, as it came, so that a dead tablet loses nothing: once, however often it is sent. Signature tokens never stay in it. */
export async function keepSetAside(
  client: ClientBase,
  jobs: readonly Job[],
  results: readonly Result[],
  known: Recorded,
  at: string,
): Promise<void> {
  const rows = results.flatMap((r, i) => {
    const job = jobs[i];
    if (!job || (r.as !== 'refused' && r.as !== 'waiting')) return [];
    return [
      {
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
      },
    ];
  });
  if (rows.length === 0) return;
  await client.query({
    name: 'set aside entry',
    text: `INSERT INTO set_aside SELECT * FROM json_populate_recordset(NULL::set_aside, $1::json) n
            WHERE NOT EXISTS (SELECT 1 FROM set_aside h WHERE h.organisation = n.organisation AND h.entry = n.entry
                              AND h."as" = n."as" AND h.problem IS NOT DISTINCT FROM n.problem AND h.body = n.body)`,
    values: [storable(JSON.stringify(rows))],
  });
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
