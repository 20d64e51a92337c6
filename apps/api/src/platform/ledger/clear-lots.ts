import { clearAmong, clearNeeds, type Touched } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Holds, TableRow } from '../database/index.js';
import { ClearCut } from './clear-cut.js';
import { takenLateSql } from './later-content.js';
import { lifeEverHolds } from './past-life-sql.js';
import { sameCode } from './same-code.js';
import { restOn, sameBake } from './first-load-sql.js';
import { loadState } from './load-state.js';
import type { BookRef } from './types.js';

/**
 * Which lots are clear is noted so that a look-up need not follow a starter back through all the years: nothing is open at such a lot or anywhere
 * behind it. The note is no record and is never shown: it is worked out from the records by the rules of every decision, and taken away as soon as
 * something is written about the lot or about anything that it came of. Without any notes every answer is the same, and slower.
 */

/** Takes the notes away from what was touched and from all that came of it. True where there were any. */
export async function forgetClear(client: ClientBase, organisation: string, touched: Touched | 'everything'): Promise<boolean> {
  const { rowCount } =
    touched === 'everything'
      ? await client.query('DELETE FROM clear_lot WHERE organisation = $1', [organisation])
      : await client.query({
          name: 'forget clear lots',
          text: forgetting,
          values: [
            organisation,
            [...touched.about],
            [...touched.amounts.keys()],
            [...touched.came.keys()],
            [...touched.came.values()],
            touched.bakedOn.map((d) => d.bakeDay),
            touched.bakedOn.map((d) => d.product),
            touched.bakedOn.map((d) => d.oven),
            [...touched.amounts.values()],
            [...touched.placed],
          ],
        });
  return (rowCount ?? 0) > 0;
}

/**
 * Where something was, or was opened, speaks about it once a place was put on hold, or a plan holds what is past its life. Amounts speak about a lot of which some was destroyed or came back, about one that was used before what it is clear for was recorded to be, and about one that the lot turned out to be. What is recorded about a delivery speaks about its lots, and what is recorded about a load about the batches that were
 * baked in it, and about those that rest on it as the first of their day. A batch speaks about the others that have its code. A lot that came, or whose code was found, speaks about those of its material that nobody could name from then on.
 */
const forgetting = `
  WITH RECURSIVE also(id, at) AS (SELECT * FROM unnest($3::uuid[], $9::timestamptz[]) UNION SELECT i.same, a.at FROM also a CROSS JOIN LATERAL (
    SELECT same FROM lot_identified WHERE organisation = $1 AND lot = a.id AND same IS NOT NULL OFFSET 0) i), touched(id) AS MATERIALIZED (SELECT unnest($2::uuid[])
    UNION SELECT p.id FROM unnest($10::uuid[]) q(id) CROSS JOIN LATERAL (
      WITH RECURSIVE names(id) AS (SELECT q.id UNION SELECT i.same FROM names n CROSS JOIN LATERAL (
        SELECT same FROM lot_identified WHERE organisation = $1 AND lot = n.id AND same IS NOT NULL OFFSET 0) i) SELECT id FROM names) p
      WHERE EXISTS (SELECT FROM place_hold WHERE organisation = $1 AND held = 'place') OR ${lifeEverHolds} UNION SELECT a.id FROM also a CROSS JOIN LATERAL (
    (SELECT FROM departure d WHERE d.organisation = $1 AND d.lot = a.id AND d.decided IS NOT NULL LIMIT 1)
    UNION ALL (SELECT FROM returned c WHERE c.organisation = $1 AND c.lot = a.id LIMIT 1)
    UNION ALL (SELECT FROM clear_lot k WHERE k.organisation = $1 AND k.lot = a.id AND k.since > a.at)) d), reached(lot) AS (
    SELECT b.lot FROM (
      SELECT id AS lot FROM touched
      UNION ALL SELECT p.id FROM unnest($4::uuid[], $5::timestamptz[]) m(material, at) CROSS JOIN LATERAL (
        SELECT p.id FROM lot p WHERE p.organisation = $1 AND (p.material, p.type, p.at) >= (m.material, 'placeholder', m.at)
          AND (p.material, p.type, p.at) <= (m.material, 'placeholder', 'infinity') AND p.delivery IS NULL OFFSET 0) p
      UNION ALL SELECT p.id FROM touched t CROSS JOIN LATERAL (
        SELECT l.material, l.at FROM lot l WHERE l.organisation = $1 AND l.id = t.id AND l.delivery IS NOT NULL
          AND EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.lot = l.id) OFFSET 0) m CROSS JOIN LATERAL (
        SELECT p.id FROM lot p WHERE p.organisation = $1 AND (p.material, p.type, p.at) >= (m.material, 'placeholder', m.at)
          AND (p.material, p.type, p.at) <= (m.material, 'placeholder', 'infinity') AND p.delivery IS NULL OFFSET 0) p
      UNION SELECT n.lot FROM touched t CROSS JOIN LATERAL (
        SELECT l.id AS lot FROM lot l WHERE l.organisation = $1 AND l.delivery = t.id
        UNION ALL SELECT b.id FROM load_line o CROSS JOIN LATERAL (
          SELECT id FROM batch WHERE organisation = $1 AND run = o.run OFFSET 0) b WHERE o.organisation = $1 AND o.load = t.id
        UNION ALL SELECT b.id FROM (${restOn('t.id')}) p CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND run = p.run OFFSET 0) b
        UNION ALL SELECT s.id FROM (${sameCode('t.id')}) s
        OFFSET 0) n
      UNION SELECT b.id FROM unnest($6::date[], $7::uuid[], $8::uuid[]) d(bake_day, product, oven) CROSS JOIN LATERAL (${sameBake('d')}) p CROSS JOIN LATERAL (
        SELECT id FROM batch WHERE organisation = $1 AND run = p.run OFFSET 0) b) b
    UNION SELECT n.lot FROM reached r CROSS JOIN LATERAL (
      SELECT f.target AS lot FROM flow f WHERE f.organisation = $1 AND f.source = r.lot
      UNION ALL SELECT l.target FROM (${takenLateSql('r.lot')}) l
      UNION ALL SELECT i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.same = r.lot
      OFFSET 0) n
  ) DELETE FROM clear_lot c USING reached r WHERE c.organisation = $1 AND c.lot = r.lot`;

interface BookRow extends Pick<TableRow<'book'>, 'id' | 'zone'> {
  readonly type: Holds<TableRow<'book'>['type'], BookRef['type']>;
}

/** Notes which of these lots, and of all that they come from, are clear. No record is written meanwhile: every book is locked. Answers with how many. */
export async function noteClear(client: ClientBase, organisation: string, lots: readonly string[], now: Date): Promise<number> {
  const { rows } = await client.query<BookRow>('SELECT id, type, zone FROM book WHERE organisation = $1 ORDER BY id FOR UPDATE', [
    organisation,
  ]);
  const cut = new ClearCut('infinity', now);
  const books = rows.map((row) => ({ ...row, organisation }));
  const state = await loadState(client, books, (known) => clearNeeds(known, lots), { cut });
  const clear = [...clearAmong(state, lots, cut.restBefore)];
  await client.query(
    `INSERT INTO clear_lot (organisation, lot, since) SELECT $1, * FROM unnest($2::uuid[], $3::timestamptz[])
     ON CONFLICT (organisation, lot) DO UPDATE SET since = excluded.since`,
    [organisation, clear.map(([lot]) => lot), clear.map(([, since]) => since)],
  );
  return clear.length;
}
