import type { Watched } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { concernBegins, openDeviations, openHolds } from './concern-begins.js';

/**
 * Lots at which a concern may begin, and deviations and holds that may be open, are on watch, so that a screen asks about these and not about all that ever
 * was: each from the commit of whatever is recorded about it, and until it was looked at and is over. What is on watch too long costs time and changes no answer.
 */

/** Watches what a commit spoke about, once its rows are saved. Answers with how much came to be watched. */
export async function watch(client: ClientBase, organisation: string, of: Watched): Promise<number> {
  const { open, lots, subjects, runs, cases, contents, distrusted } = of;
  if ([open, lots, subjects, runs, cases, contents, distrusted].every((some) => some.length === 0)) return 0;
  const { rowCount } = await client.query({
    name: 'watch',
    text: watching,
    values: [
      organisation,
      lots,
      subjects,
      runs,
      cases,
      distrusted.map((d) => d.instrument),
      distrusted.map((d) => d.at),
      distrusted.map((d) => d.out),
      open,
      contents,
    ],
  });
  return rowCount ?? 0;
}

const nextTo = (of: string, way: string): string =>
  `(SELECT ${of}(k.at) FROM instrument_check k WHERE k.organisation = $1 AND k.instrument = c.instrument AND k.at ${way} c.at)`;

/**
 * What turned out to be another lot is watched with that. A check says something about the readings from the one before it to the one after it, and an instrument that went out of use about all later ones. In order
 * of their ids, so that two processes never wait crosswise.
 */
const watching = `WITH RECURSIVE named(id) AS MATERIALIZED (
    SELECT unnest($3::uuid[])
    UNION SELECT r.subject FROM unnest($6::uuid[], $7::timestamptz[], $8::boolean[]) c(instrument, at, out) CROSS JOIN LATERAL (
      SELECT subject FROM reading WHERE organisation = $1 AND instrument = c.instrument AND class IN ('ccp', 'oprp')
        AND at >= coalesce(${nextTo('max', '<')}, '-infinity')
        AND at <= CASE WHEN c.out THEN 'infinity' ELSE coalesce(${nextTo('min', '>')}, 'infinity') END OFFSET 0) r
  ), baked(run) AS MATERIALIZED (
    SELECT unnest($4::uuid[])
    UNION SELECT o.run FROM named n CROSS JOIN LATERAL (SELECT run FROM load_line WHERE organisation = $1 AND load = n.id OFFSET 0) o
  ), found(lot) AS (
    SELECT unnest($2::uuid[])
    UNION SELECT id FROM named
    UNION SELECT f.target FROM unnest($10::uuid[]) c(id) CROSS JOIN LATERAL (SELECT target FROM flow WHERE organisation = $1 AND source = c.id OFFSET 0) f
    UNION SELECT l.id FROM named n CROSS JOIN LATERAL (SELECT id FROM lot WHERE organisation = $1 AND delivery = n.id OFFSET 0) l
    UNION SELECT b.id FROM baked r CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND run = r.run OFFSET 0) b
    UNION SELECT s.lot FROM unnest($5::uuid[]) c(id) CROSS JOIN LATERAL (SELECT lot FROM recall_scope_lot WHERE organisation = $1 AND recall = c.id OFFSET 0) s
  ), also(lot) AS (
    SELECT lot FROM found
    UNION SELECT i.same FROM also a CROSS JOIN LATERAL (SELECT same FROM lot_identified WHERE organisation = $1 AND lot = a.lot AND same IS NOT NULL OFFSET 0) i
  ) INSERT INTO on_watch (organisation, id)
    SELECT $1, n.id FROM (SELECT f.lot AS id FROM also f CROSS JOIN LATERAL (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = f.lot OFFSET 0) l
      UNION SELECT unnest($9::uuid[])) n ORDER BY n.id
    ON CONFLICT DO NOTHING`;

/** Watches everything there is: after the rows were made anew, nothing is known of any. */
export const watchAll = (client: ClientBase, organisation: string): Promise<unknown> =>
  client.query(
    `INSERT INTO on_watch (organisation, id) SELECT $1, id FROM (
       SELECT id FROM lot WHERE organisation = $1 UNION SELECT id FROM deviation WHERE organisation = $1 UNION SELECT id FROM hold WHERE organisation = $1) x
     ORDER BY id ON CONFLICT DO NOTHING`,
    [organisation],
  );

/** So many are looked at while nothing can be recorded. */
const slice = 2_000;
const first = '00000000-0000-0000-0000-000000000000';

type WatchedRow = Pick<TableRow<'onWatch'>, 'id'>;

/**
 * Looks at the next things on watch after one, in order of their ids, and lets go what is over. No record is written meanwhile: every book is locked. Answers
 * with the last one looked at; null where there are no more.
 */
export async function letGo(client: ClientBase, organisation: string, after: string | null): Promise<string | null> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 ORDER BY id FOR UPDATE', [organisation]);
  const { rows } = await client.query<WatchedRow>('SELECT id FROM on_watch WHERE organisation = $1 AND id > $2 ORDER BY id LIMIT $3', [
    organisation,
    after ?? first,
    slice,
  ]);
  const ids = rows.map((r) => r.id);
  await client.query({
    name: 'let go',
    text: `WITH watched(lot) AS MATERIALIZED (SELECT unnest($2::uuid[])),
      open(id) AS MATERIALIZED (${concernBegins} UNION ALL SELECT id FROM (${openDeviations}) d UNION ALL ${openHolds})
      DELETE FROM on_watch o USING watched w WHERE o.organisation = $1 AND o.id = w.lot AND w.lot NOT IN (SELECT id FROM open)`,
    values: [organisation, ids],
  });
  return ids.length < slice ? null : (ids.at(-1) ?? null);
}

/** So much that came to be watched is worth looking at: most of it is over. */
const worthLettingGo = 100;

interface Ports {
  inOrganisation<T>(organisation: string, work: (client: ClientBase) => Promise<T>): Promise<T>;
  fault(error: unknown): void;
}

/** When to look at what is on watch: at the first record of a process, which does not know how much there is, and after so much that is new. */
export class Watching {
  private readonly since = new Map<string, number>();

  constructor(private readonly ports: Ports) {}

  note(organisation: string, count: number): void {
    if (count > 0) this.since.set(organisation, (this.since.get(organisation) ?? worthLettingGo) + count);
  }

  /** Looks at everything on watch, some at a time, and lets go what is over. A fault leaves it on watch. */
  async letGo(organisation: string): Promise<void> {
    if ((this.since.get(organisation) ?? 0) < worthLettingGo) return;
    this.since.set(organisation, 0);
    try {
      let last: string | null = null;
      do last = await this.ports.inOrganisation(organisation, (client) => letGo(client, organisation, last));
      while (last !== null);
    } catch (error) {
      this.ports.fault(error);
    }
  }
}
