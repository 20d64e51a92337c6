import type { ClientBase } from 'pg';
import { organisationIds, seeHouse, type TableRow } from '../../platform/database/index.js';
import type { BookKey } from './seals.query.js';

type Row = TableRow<'keyChange'>;

/** Who makes a seal holds this together with others until its transaction ends; who changes the key holds it alone. */
const keyLock = 72_707_371;

/** Waits while the key is being changed. Needs a transaction in which each statement sees what was committed before it. */
export async function keyStays(client: ClientBase): Promise<void> {
  await client.query('SELECT pg_advisory_xact_lock_shared($1)', [keyLock]);
}

/** Nobody else makes a seal until `everybodySeals`, or until this connection ends. The service's role may lock no table against those that write, so it is no lock on one. */
export async function nobodySeals(client: ClientBase): Promise<void> {
  await client.query("SET lock_timeout = '30s'");
  await client.query('SELECT pg_advisory_lock($1)', [keyLock]);
}

export async function everybodySeals(client: ClientBase): Promise<void> {
  await client.query('SELECT pg_advisory_unlock($1)', [keyLock]);
}

/** The key stays the same until this connection ends, whatever its transactions see. */
export async function keyStaysFor(client: ClientBase): Promise<void> {
  await client.query('SELECT pg_advisory_lock_shared($1)', [keyLock]);
}

/** What was said of a book's keys, the oldest first. */
export async function keyChangesOf(client: ClientBase, { organisation, id }: BookKey): Promise<readonly Pick<Row, 'note' | 'at'>[]> {
  const { rows } = await client.query<Pick<Row, 'note' | 'at'>>(
    'SELECT note, at FROM key_change WHERE organisation = $1 AND book = $2 ORDER BY turn',
    [organisation, id],
  );
  return rows;
}

/** The last change of each book of a house. */
export async function lastChangesOf(client: ClientBase, organisation: string): Promise<readonly Pick<Row, 'book' | 'note' | 'at'>[]> {
  const { rows } = await client.query<Pick<Row, 'book' | 'note' | 'at'>>(
    'SELECT DISTINCT ON (book) book, note, at FROM key_change WHERE organisation = $1 ORDER BY book, turn DESC',
    [organisation],
  );
  return rows;
}

/** The last change of each book of all houses; the transaction sees the last of them when this returns. */
export async function lastChanges(client: ClientBase): Promise<readonly Pick<Row, 'book' | 'note' | 'at'>[]> {
  const all: Pick<Row, 'book' | 'note' | 'at'>[] = [];
  for (const organisation of await organisationIds(client)) {
    await seeHouse(client, organisation);
    all.push(...(await lastChangesOf(client, organisation)));
  }
  return all;
}

/** The books of the house that the transaction sees. */
export async function booksOf(
  client: ClientBase,
  organisation: string,
): Promise<readonly Pick<TableRow<'book'>, 'id' | 'name' | 'size'>[]> {
  const { rows } = await client.query<Pick<TableRow<'book'>, 'id' | 'name' | 'size'>>(
    'SELECT id, name, size FROM book WHERE organisation = $1 ORDER BY type, name, id',
    [organisation],
  );
  return rows;
}

export async function keepKeyChange(
  client: ClientBase,
  { organisation, id }: BookKey,
  { turn, size, note, at }: Pick<Row, 'turn' | 'size' | 'note' | 'at'>,
): Promise<void> {
  await client.query('INSERT INTO key_change (organisation, book, turn, size, note, at) VALUES ($1, $2, $3, $4, $5, $6)', [
    organisation,
    id,
    turn,
    size,
    note,
    at,
  ]);
}
