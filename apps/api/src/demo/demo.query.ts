import pg, { type ClientBase } from 'pg';
import type { Computed } from '../platform/database/index.js';

/** Empties every table that knows an organisation: nobody has had anything of it yet. */
export async function emptyEverything(owner: ClientBase): Promise<void> {
  const { rows } = await owner.query<{ name: Computed<string> }>(
    "SELECT table_name AS name FROM information_schema.columns WHERE table_schema = 'public' AND column_name = 'organisation'",
  );
  await owner.query(`TRUNCATE ${[...rows.map((r) => r.name), 'organisation'].map((name) => pg.escapeIdentifier(name)).join(', ')}`);
}

/** The name of the organisation and of its own book. */
export async function rename(owner: ClientBase, organisation: string, book: string, name: string): Promise<void> {
  await owner.query('UPDATE organisation SET name = $2 WHERE id = $1', [organisation, name]);
  await owner.query('UPDATE book SET name = $3 WHERE organisation = $1 AND id = $2', [organisation, book, name]);
}

/** Plans that were made on empty tables are many times slower. */
export async function analyse(owner: ClientBase): Promise<void> {
  await owner.query('ANALYZE');
}
