import type { ClientBase } from 'pg';
import type { Holds, TableRow } from '../database/index.js';
import type { BookRef } from './types.js';

type Book = TableRow<'book'>;
type Person = Pick<TableRow<'person'>, 'organisation' | 'id'>;
/** A book, its size, and whose it is. */
export interface NamedBook extends Pick<Book, 'organisation' | 'id' | 'name' | 'zone' | 'size'> {
  readonly type: Holds<Book['type'], BookRef['type']>;
  readonly of: TableRow<'organisation'>['name'];
}

/** Every book of every organisation, as the owner sees them. */
export async function everyBook(owner: ClientBase): Promise<readonly NamedBook[]> {
  const { rows } = await owner.query<NamedBook>(
    `SELECT b.organisation, b.id, b.type, b.name, b.zone, b.size, o.name AS of FROM book b JOIN organisation o ON o.id = b.organisation
     ORDER BY o.name, b.organisation, b.type, b.name, b.id`,
  );
  return rows;
}

export type OrganisationRef = Pick<TableRow<'organisation'>, 'id' | 'name'>;
/** Every organisation, as the owner sees them. */
export async function everyOrganisation(owner: ClientBase): Promise<readonly OrganisationRef[]> {
  const { rows } = await owner.query<OrganisationRef>('SELECT id, name FROM organisation ORDER BY name, id');
  return rows;
}

/** The people of any organisation that this is the name or the id of. */
export async function peopleCalled(owner: ClientBase, nameOrId: string): Promise<readonly Person[]> {
  const { rows } = await owner.query<Person>(
    'SELECT organisation, id FROM person WHERE name = $1 OR id::text = lower($1) ORDER BY id LIMIT 2',
    [nameOrId],
  );
  return rows;
}
