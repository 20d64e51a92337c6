import type { ClientBase } from 'pg';
import type { BookRef } from './types.js';

/** A book, its size, and whose it is. */
export type NamedBook = BookRef & { readonly name: string; readonly size: number; readonly of: string };

/** Every book of every organisation, as the owner sees them. */
export async function everyBook(owner: ClientBase): Promise<readonly NamedBook[]> {
  const { rows } = await owner.query<NamedBook>(
    `SELECT b.organisation, b.id, b.type, b.name, b.zone, b.size, o.name AS of FROM book b JOIN organisation o ON o.id = b.organisation
     ORDER BY o.name, b.organisation, b.type, b.name, b.id`,
  );
  return rows;
}

/** The people of any organisation that this is the name or the id of. */
export async function peopleCalled(
  owner: ClientBase,
  nameOrId: string,
): Promise<readonly { readonly organisation: string; readonly id: string }[]> {
  const { rows } = await owner.query<{ organisation: string; id: string }>(
    'SELECT organisation, id FROM person WHERE name = $1 OR id::text = lower($1) ORDER BY id LIMIT 2',
    [nameOrId],
  );
  return rows;
}
