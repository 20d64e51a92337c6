import type { ClientBase } from 'pg';
import { uuidv7 } from '../ids/index.js';
import type { Job, Result } from './types.js';

/** Keeps what was refused or is waiting, as it came, so that a dead tablet loses nothing: once, however often it is sent. Signature tokens never stay in it. */
export async function keepSetAside(client: ClientBase, jobs: readonly Job[], results: readonly Result[], at: string): Promise<void> {
  const rows = results.flatMap((r, i) => {
    const job = jobs[i];
    if (!job || (r.as !== 'refused' && r.as !== 'waiting')) return [];
    return [
      {
        organisation: job.book.organisation,
        book: job.book.id,
        id: uuidv7(new Date(at)),
        entry: job.read.ok ? job.read.envelope.id : null,
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
