import type { ClientBase } from 'pg';
import type { Columns, TableRow } from '../database/index.js';
import { none, type Count, type Counts } from './guessing.js';

type GuessCount = TableRow<'guessCount'>;
export interface Keys {
  readonly own: GuessCount['key'];
  readonly place: GuessCount['key'];
  /** Null at an enrolled device, whose tries are its own. */
  readonly elsewhere: GuessCount['key'] | null;
}
type CountRow = Columns<Pick<GuessCount, 'key' | 'failures' | 'lastAt' | 'nextAt' | 'goodAt'>>;

const never = '1970-01-01T00:00:00Z';
const iso = (ms: number): string => new Date(ms).toISOString();
const isoOrNull = (ms: number | null): string | null => (ms === null ? null : iso(ms));

/** The counts, locked in one order; made where they are new, so that two first tries at once wait for each other. */
export async function lockCounts(client: ClientBase, organisation: string, { own, place, elsewhere }: Keys): Promise<Counts> {
  const keys = namesOf({ own, place, elsewhere }).sort();
  await client.query(
    'INSERT INTO guess_count (organisation, key, failures, last_at, next_at) SELECT $1, unnest($2::text[]), 0, $3, $3 ON CONFLICT DO NOTHING',
    [organisation, keys, never],
  );
  const { rows } = await client.query<CountRow>(
    'SELECT key, failures, last_at, next_at, good_at FROM guess_count WHERE organisation = $1 AND key = ANY($2) ORDER BY key FOR UPDATE',
    [organisation, keys],
  );
  const byKey = new Map(
    rows.map((r): [string, Count] => [
      r.key,
      {
        failures: r.failures,
        lastAt: Date.parse(r.last_at),
        nextAt: Date.parse(r.next_at),
        goodAt: r.good_at === null ? null : Date.parse(r.good_at),
      },
    ]),
  );
  return {
    own: byKey.get(own) ?? none,
    place: byKey.get(place) ?? none,
    elsewhere: (elsewhere === null ? undefined : byKey.get(elsewhere)) ?? none,
  };
}

export async function saveCounts(client: ClientBase, organisation: string, keys: Keys, counts: Counts): Promise<void> {
  const names = namesOf(keys);
  const all = [counts.own, counts.place, ...(keys.elsewhere === null ? [] : [counts.elsewhere])];
  await client.query(
    `UPDATE guess_count g SET failures = n.failures, last_at = n.last_at, next_at = n.next_at, good_at = n.good_at
     FROM unnest($2::text[], $3::int[], $4::timestamptz[], $5::timestamptz[], $6::timestamptz[]) AS n(key, failures, last_at, next_at, good_at)
     WHERE g.organisation = $1 AND g.key = n.key`,
    [
      organisation,
      names,
      all.map((c) => c.failures),
      all.map((c) => iso(c.lastAt)),
      all.map((c) => iso(c.nextAt)),
      all.map((c) => isoOrNull(c.goodAt)),
    ],
  );
}

/** After a try: counts of nothing are not kept. */
export async function dropEmptyCounts(client: ClientBase, organisation: string, keys: Keys): Promise<void> {
  await client.query('DELETE FROM guess_count WHERE organisation = $1 AND key = ANY($2) AND failures = 0 AND good_at IS NULL', [
    organisation,
    namesOf(keys),
  ]);
}

const namesOf = ({ own, place, elsewhere }: Keys): string[] => [own, place, ...(elsewhere === null ? [] : [elsewhere])];

/** Of these counts, those at which a PIN was right before. */
export async function goodBefore(
  client: ClientBase,
  organisation: string,
  keys: readonly GuessCount['key'][],
): Promise<ReadonlySet<string>> {
  const { rows } = await client.query<Pick<GuessCount, 'key'>>(
    'SELECT key FROM guess_count WHERE organisation = $1 AND key = ANY($2) AND good_at IS NOT NULL',
    [organisation, keys],
  );
  return new Set(rows.map((r) => r.key));
}
