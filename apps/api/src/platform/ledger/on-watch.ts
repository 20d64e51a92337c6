import type { Watched } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { concernBegins, openDeviations, openHolds } from './concern-begins.js';
import { restOn, sameBake } from './first-load-sql.js';
import { takenLateSql } from './later-content.js';
import { atHeldPlaces } from './held-place-sql.js';
import { lifeEverHolds } from './past-life-sql.js';
import { sameCode } from './same-code.js';
import { saysOfRework } from './rework-sql.js';
import { notedTypes, stillHere } from './still-here.js';

/**
 * Lots at which a concern may begin, and deviations and holds that may be open, are on watch, so that a screen asks about these and not about all that ever
 * was: each from the commit of whatever is recorded about it, and until it was looked at and is over. Lots that may still be in the house are noted the same
 * way, beside. What is on watch too long costs time and changes no answer.
 */

/** Watches what a commit spoke about, once its rows are saved. Answers with how much came to be watched. */
export async function watch(client: ClientBase, organisation: string, of: Watched): Promise<number> {
  const { open, lots, subjects, runs, bakedOn, cases, contents, putInto, distrusted, places, lives, livesSince } = of;
  if ([open, lots, subjects, runs, bakedOn, cases, contents, distrusted, places, lives, livesSince].every((some) => some.length === 0))
    return 0;
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
      bakedOn.map((d) => d.bakeDay),
      bakedOn.map((d) => d.product),
      bakedOn.map((d) => d.oven),
      places,
      lives,
      [...livesSince].sort()[0] ?? null,
      putInto,
    ],
  });
  return rowCount ?? 0;
}

const nextTo = (of: string, way: string): string =>
  `(SELECT ${of}(k.at) FROM instrument_check k WHERE k.organisation = $1 AND k.instrument = c.instrument AND k.at ${way} c.at)`;

/**
 * What is read of a make is read for its batches and for what was divided from it. By when something had to be used speaks about what it went into, also by way of a vessel or of a lot that turned out to be it.
 * What tells of a life speaks about what that lot went into, and a plan or a specification that is corrected about all that was made since.
 * What went into something speaks about everything that came of it and whose formula says what may be put back.
 * A place that is put on hold speaks about all that was there then. What is said of the first load of a day is said of the batches that were baked later that day. What turned out to be another lot is watched with that, and a batch with the others that have its code. A check says something about the readings from the one before it to the one after it, and an instrument that went out of use about all later ones. In order
 * of their ids, so that two processes never wait crosswise.
 */
const watching = `WITH RECURSIVE named(id) AS MATERIALIZED (
    SELECT unnest($3::uuid[])
    UNION SELECT r.subject FROM unnest($6::uuid[], $7::timestamptz[], $8::boolean[]) c(instrument, at, out) CROSS JOIN LATERAL (
      SELECT subject FROM reading WHERE organisation = $1 AND instrument = c.instrument AND class IN ('ccp', 'oprp')
        AND at >= coalesce(${nextTo('max', '<')}, '-infinity')
        AND at <= CASE WHEN c.out THEN 'infinity' ELSE coalesce(${nextTo('min', '>')}, 'infinity') END OFFSET 0) r
    UNION SELECT p.id FROM (${atHeldPlaces('$14')}) p
  ), baked(run) AS MATERIALIZED (
    SELECT unnest($4::uuid[])
    UNION SELECT o.run FROM named n CROSS JOIN LATERAL (SELECT run FROM load_line WHERE organisation = $1 AND load = n.id OFFSET 0) o
    UNION SELECT p.run FROM named n CROSS JOIN LATERAL (${restOn('n.id')}) p
    UNION SELECT p.run FROM unnest($11::date[], $12::uuid[], $13::uuid[]) d(bake_day, product, oven) CROSS JOIN LATERAL (${sameBake('d')}) p
  ), went(id) AS (
    SELECT unnest($10::uuid[])
    UNION SELECT unnest($15::uuid[]) WHERE (SELECT ${lifeEverHolds})
    UNION SELECT n.id FROM went c CROSS JOIN LATERAL (
      SELECT i.lot AS id FROM lot_identified i WHERE i.organisation = $1 AND i.same = c.id
      UNION ALL SELECT v.id FROM (SELECT target FROM flow WHERE organisation = $1 AND source = c.id OFFSET 0) f CROSS JOIN LATERAL (
        SELECT id, type FROM lot WHERE organisation = $1 AND id = f.target OFFSET 0) v WHERE v.type = 'vessel'
      OFFSET 0) n
  ), put(lot) AS (
    SELECT unnest($17::uuid[])
    UNION SELECT n.lot FROM put p CROSS JOIN LATERAL (
      SELECT target AS lot FROM flow WHERE organisation = $1 AND source = p.lot
      UNION ALL SELECT lot FROM lot_identified WHERE organisation = $1 AND same = p.lot
      OFFSET 0) n
  ), found(lot) AS (
    SELECT unnest($2::uuid[])
    UNION SELECT p.lot FROM put p CROSS JOIN LATERAL (SELECT formula_version FROM make WHERE organisation = $1 AND id = p.lot OFFSET 0) m
      CROSS JOIN LATERAL (${saysOfRework('m.formula_version')}) v
    UNION SELECT id FROM named
    UNION SELECT f.target FROM (SELECT id FROM book WHERE organisation = $1 AND $16::timestamptz IS NOT NULL OFFSET 0) k CROSS JOIN LATERAL (
      SELECT target FROM flow WHERE organisation = $1 AND book = k.id AND at >= $16 OFFSET 0) f WHERE (SELECT ${lifeEverHolds})
    UNION SELECT n.target FROM went c CROSS JOIN LATERAL (
      SELECT f.target FROM flow f WHERE f.organisation = $1 AND f.source = c.id
      UNION ALL SELECT l.target FROM (${takenLateSql('c.id')}) l
      OFFSET 0) n
    UNION SELECT l.id FROM named n CROSS JOIN LATERAL (SELECT id FROM lot WHERE organisation = $1 AND delivery = n.id OFFSET 0) l
    UNION SELECT b.id FROM baked r CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND run = r.run OFFSET 0) b
    UNION SELECT b.id FROM named n CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND make = n.id OFFSET 0) b
    UNION SELECT f.target FROM named n CROSS JOIN LATERAL (SELECT target FROM flow WHERE organisation = $1 AND source = n.id AND type = 'divided' OFFSET 0) f
    UNION SELECT s.lot FROM unnest($5::uuid[]) c(id) CROSS JOIN LATERAL (SELECT lot FROM recall_scope_lot WHERE organisation = $1 AND recall = c.id OFFSET 0) s
  ), also(lot) AS (
    SELECT lot FROM found
    UNION SELECT s.id FROM found f CROSS JOIN LATERAL (${sameCode('f.lot')}) s
    UNION SELECT i.same FROM also a CROSS JOIN LATERAL (SELECT same FROM lot_identified WHERE organisation = $1 AND lot = a.lot AND same IS NOT NULL OFFSET 0) i
  ) INSERT INTO on_watch (organisation, id)
    SELECT $1, n.id FROM (SELECT f.lot AS id FROM also f CROSS JOIN LATERAL (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = f.lot OFFSET 0) l
      UNION SELECT unnest($9::uuid[])) n ORDER BY n.id
    ON CONFLICT DO NOTHING`;

/** Notes what a commit spoke about as perhaps still in the house, once its rows are saved. */
export async function noteHere(client: ClientBase, organisation: string, { lots, inTheHouse, parties }: Watched): Promise<void> {
  if ([lots, inTheHouse, parties].every((some) => some.length === 0)) return;
  await client.query({ name: 'note what is still here', text: noting, values: [organisation, [...lots, ...inTheHouse], parties] });
}

const same = ['book', 'type', 'at'];
const noteAgain = `ON CONFLICT (organisation, id) DO UPDATE SET ${same.map((c) => `${c} = excluded.${c}`).join(', ')}
    WHERE (${same.map((c) => `h.${c}`).join(', ')}) IS DISTINCT FROM (${same.map((c) => `excluded.${c}`).join(', ')})`;
const noting = `INSERT INTO still_here AS h (organisation, id, book, type, at)
    SELECT $1, l.id, l.book, l.type, l.at FROM (
      SELECT unnest($2::uuid[]) AS lot
      UNION SELECT d.lot FROM unnest($3::uuid[]) p(party) CROSS JOIN LATERAL (SELECT lot FROM departure WHERE organisation = $1 AND customer = p.party OFFSET 0) d
    ) n CROSS JOIN LATERAL (SELECT id, book, type, at FROM lot WHERE organisation = $1 AND id = n.lot AND type IN ${notedTypes} OFFSET 0) l
    ORDER BY l.id ${noteAgain}`;

/** Watches everything there is: after the rows were made anew, nothing is known of any. */
export async function watchAll(client: ClientBase, organisation: string): Promise<void> {
  await client.query(
    `INSERT INTO still_here AS h (organisation, id, book, type, at)
       SELECT organisation, id, book, type, at FROM lot WHERE organisation = $1 AND type IN ${notedTypes} ORDER BY id ${noteAgain}`,
    [organisation],
  );
  await client.query(
    `INSERT INTO on_watch (organisation, id) SELECT $1, id FROM (
       SELECT id FROM lot WHERE organisation = $1 UNION SELECT id FROM deviation WHERE organisation = $1 UNION SELECT id FROM hold WHERE organisation = $1) x
     ORDER BY id ON CONFLICT DO NOTHING`,
    [organisation],
  );
}

/** So many are looked at while nothing can be recorded. */
const slice = 500;
const first = '00000000-0000-0000-0000-000000000000';

type WatchedRow = Pick<TableRow<'onWatch'>, 'id'>;
/** All of it, or what is on watch without what is noted as still here. */
type Which = 'everything' | 'on-watch';

const next = (from: string): string => `(SELECT id FROM ${from} WHERE organisation = $1 AND id > $2 ORDER BY id LIMIT $3)`;
const nextOf: Readonly<Record<Which, string>> = {
  everything: `SELECT id FROM (${next('on_watch')} UNION ${next('still_here')}) n ORDER BY id LIMIT $3`,
  'on-watch': next('on_watch'),
};

/**
 * Looks at the next things on watch after one, in order of their ids, and lets go what is over. No record is written meanwhile: every book is locked. Answers
 * with the last one looked at; null where there are no more.
 */
export async function letGo(
  client: ClientBase,
  organisation: string,
  after: string | null,
  which: Which = 'everything',
): Promise<string | null> {
  await lockBooks(client, organisation);
  const { rows } = await client.query<WatchedRow>(nextOf[which], [organisation, after ?? first, slice]);
  const ids = rows.map((r) => r.id);
  await lookAt(client, organisation, ids);
  return ids.length < slice ? null : (ids.at(-1) ?? null);
}

const lockBooks = (client: ClientBase, organisation: string): Promise<unknown> =>
  client.query('SELECT 1 FROM book WHERE organisation = $1 ORDER BY id FOR UPDATE', [organisation]);

async function lookAt(client: ClientBase, organisation: string, ids: readonly string[]): Promise<void> {
  await client.query({ name: 'let go', text: lettingGo, values: [organisation, ids] });
  await client.query({ name: 'let go of what left', text: lettingLeave, values: [organisation, ids] });
}

const among = (of: string): string =>
  `SELECT o.id FROM unnest($2::uuid[]) n(id) CROSS JOIN LATERAL (SELECT id FROM ${of} WHERE organisation = $1 AND id = n.id OFFSET 0) o`;
const lettingGo = `WITH watched(lot) AS MATERIALIZED (${among('on_watch')}),
    open(id) AS MATERIALIZED (${concernBegins} UNION ALL SELECT id FROM (${openDeviations}) d UNION ALL ${openHolds})
  DELETE FROM on_watch o USING watched w WHERE o.organisation = $1 AND o.id = w.lot AND w.lot NOT IN (SELECT id FROM open)`;
const lettingLeave = `WITH noted(lot) AS MATERIALIZED (${among('still_here')}),
    gone(lot) AS MATERIALIZED (SELECT w.lot FROM noted w WHERE NOT EXISTS (${stillHere}))
  DELETE FROM still_here h USING gone g WHERE h.organisation = $1 AND h.id = g.lot`;

/** So much that came to be watched is worth looking at: most of it is over. */
const worthLettingGo = 100;

interface Ports {
  inOrganisation<T>(organisation: string, work: (client: ClientBase) => Promise<T>): Promise<T>;
  fault(error: unknown): void;
}

/** What one organisation's records spoke about since it was last looked at. */
interface Since {
  count: number;
  /** Lots that may have left since: only what is recorded about a lot lets it leave. */
  readonly named: Set<string>;
}

/** When to look at what is on watch: after the first record of a process, which does not know how much there is, and after so much that is new. */
export class Watching {
  private readonly since = new Map<string, Since>();
  private readonly running = new Map<string, Promise<void>>();
  private ended = false;

  constructor(private readonly ports: Ports) {}

  note(organisation: string, count: number, { lots, inTheHouse }: Pick<Watched, 'lots' | 'inTheHouse'>): void {
    const since = this.since.get(organisation);
    if (!since) {
      if (count > 0) this.since.set(organisation, { count: Infinity, named: new Set() });
      return;
    }
    since.count += count;
    for (const lot of [...lots, ...inTheHouse]) since.named.add(lot);
  }

  /** Looks at it beside the records, some at a time, and lets go what is over: nobody waits for that. A fault leaves it on watch. */
  letGo(organisation: string): void {
    const since = this.since.get(organisation);
    if (!since || this.ended || this.running.has(organisation) || Math.max(since.count, since.named.size) < worthLettingGo) return;
    this.since.set(organisation, { count: 0, named: new Set() });
    const looked = this.look(organisation, since)
      .catch((error: unknown) => this.ports.fault(error))
      .finally(() => this.running.delete(organisation));
    this.running.set(organisation, looked);
  }

  /** Looks at no more, once what is being looked at is done. */
  async end(): Promise<void> {
    this.ended = true;
    await Promise.all(this.running.values());
  }

  private async look(organisation: string, { count, named }: Since): Promise<void> {
    const some = <T>(work: (client: ClientBase) => Promise<T>): Promise<T> => this.ports.inOrganisation(organisation, work);
    const which = count === Infinity ? 'everything' : 'on-watch';
    let last: string | null = null;
    do last = await some((client) => letGo(client, organisation, last, which));
    while (last !== null && !this.ended);
    const lots = [...named];
    for (let from = 0; from < lots.length && !this.ended; from += slice)
      await some(async (client) => {
        await lockBooks(client, organisation);
        await lookAt(client, organisation, lots.slice(from, from + slice));
      });
  }
}
