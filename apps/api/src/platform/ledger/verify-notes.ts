import { clearAmong, clearNeeds } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { ClearCut } from './clear-cut.js';
import { concernBegins, openDeviations, openHolds } from './concern-begins.js';
import { about, type Finding } from './findings.js';
import { loadState } from './load-state.js';
import { notedTypes, stillHere } from './still-here.js';
import type { BookRef } from './types.js';

/** So many lots are worked out at once. */
const slice = 2_000;
/** Everything rests by then: that a note was made early changes nothing about what is open. */
const atLast = new Date('9999-01-01T00:00:00Z');

type Note = Pick<TableRow<'clearLot'>, 'lot' | 'since'>;

/** The notes that spare look-ups: none may hide what is open. */
export async function verifyNotes(client: ClientBase, books: readonly BookRef[]): Promise<Finding[]> {
  const [first] = books;
  return first
    ? [
        ...(await clearFindings(client, books, first.organisation)),
        ...(await watchFindings(client, first.organisation)),
        ...(await hereFindings(client, first.organisation)),
      ]
    : [];
}

/**
 * Each lot that is noted as clear is worked out once more, standing on the notes of all others. A table of the same name that lasts for this
 * transaction hides the real one, so that nothing is written and nobody waits.
 */
async function clearFindings(client: ClientBase, books: readonly BookRef[], organisation: string): Promise<Finding[]> {
  const { rows: notes } = await client.query<Note>('SELECT lot, since FROM public.clear_lot WHERE organisation = $1 ORDER BY lot', [
    organisation,
  ]);
  if (notes.length === 0) return [];
  const findings: Finding[] = [];
  await client.query('CREATE TEMP TABLE clear_lot (LIKE public.clear_lot INCLUDING INDEXES) ON COMMIT DROP');
  for (let from = 0; from < notes.length; from += slice) {
    const asked = notes.slice(from, from + slice);
    const lots = asked.map((n) => n.lot);
    await client.query('DELETE FROM pg_temp.clear_lot');
    await client.query('INSERT INTO pg_temp.clear_lot SELECT * FROM public.clear_lot WHERE organisation = $1 AND lot <> ALL ($2)', [
      organisation,
      lots,
    ]);
    const cut = new ClearCut('infinity', atLast);
    const state = await loadState(client, books, (known) => clearNeeds(known, lots), { cut });
    const clear = clearAmong(state, lots, cut.restBefore);
    for (const { lot, since } of asked) {
      const made = clear.get(lot);
      if (made === undefined)
        findings.push(about('note-differs', `lot ${lot} is noted as clear, and something is open there or behind it`));
      else if (made > since) findings.push(about('note-differs', `lot ${lot} is noted as clear from ${since} on, and is from ${made} on`));
    }
  }
  await client.query('DROP TABLE pg_temp.clear_lot');
  return findings;
}

type Unwatched = Pick<TableRow<'onWatch'>, 'id'>;

/** Whatever may be open is on watch. */
async function watchFindings(client: ClientBase, organisation: string): Promise<Finding[]> {
  const { rows } = await client.query<Unwatched>(
    `WITH watched(lot) AS MATERIALIZED (
       SELECT id FROM (SELECT id FROM lot WHERE organisation = $1 UNION ALL SELECT id FROM deviation WHERE organisation = $1
         UNION ALL SELECT id FROM hold WHERE organisation = $1) x
       WHERE NOT EXISTS (SELECT FROM on_watch o WHERE o.organisation = $1 AND o.id = x.id))
     SELECT lot AS id FROM (${concernBegins}) c UNION SELECT id FROM (${openDeviations}) d UNION SELECT id FROM (${openHolds}) h ORDER BY 1`,
    [organisation],
  );
  return rows.map(({ id }) => about('note-differs', `${id} may be open and is not on watch`));
}

/** Whatever may still be in the house is noted: what is not is on no list of a tablet. */
async function hereFindings(client: ClientBase, organisation: string): Promise<Finding[]> {
  const { rows } = await client.query<Unwatched>(
    `SELECT w.lot AS id FROM (SELECT l.id AS lot FROM lot l WHERE l.organisation = $1 AND l.type IN ${notedTypes}
       AND NOT EXISTS (SELECT FROM still_here h WHERE (h.organisation, h.id, h.book, h.type, h.at) = ($1, l.id, l.book, l.type, l.at)) OFFSET 0) w
     WHERE EXISTS (${stillHere}) ORDER BY 1`,
    [organisation],
  );
  return rows.map(({ id }) => about('note-differs', `lot ${id} may still be in the house and is not noted so`));
}
