import { byText } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import { inHouse, organisationIds, type Holds, type TableRow } from '../database/index.js';
import type { BookRef } from './types.js';

type Book = TableRow<'book'>;
type Person = Pick<TableRow<'person'>, 'organisation' | 'id'>;
/** A book, its size, and whose it is. */
export interface NamedBook extends Pick<Book, 'organisation' | 'id' | 'name' | 'zone' | 'size'> {
  readonly type: Holds<Book['type'], BookRef['type']>;
  readonly of: TableRow<'organisation'>['name'];
}

/** A book by what people call it. */
export const bookText = ({ of, name, type }: NamedBook): string =>
  type === 'organisation' ? `${of}, the organisation’s own book` : `${of}, ${name}`;

export type OrganisationRef = Pick<TableRow<'organisation'>, 'id' | 'name'>;

/** Every organisation: the ids come past the fence, each name from within its own. As the service's role or as the owner. */
export async function everyOrganisation(client: ClientBase): Promise<readonly OrganisationRef[]> {
  const all: OrganisationRef[] = [];
  for (const id of await organisationIds(client)) {
    const { rows } = await inHouse(client, id, () =>
      client.query<OrganisationRef>('SELECT id, name FROM organisation WHERE id = $1', [id]),
    );
    all.push(...rows);
  }
  return all.sort((a, b) => byText(a.name, b.name) || byText(a.id, b.id));
}

/** Every book of every organisation, each house's from within its fence. */
export async function everyBook(client: ClientBase): Promise<readonly NamedBook[]> {
  const all: NamedBook[] = [];
  for (const { id } of await everyOrganisation(client)) {
    const { rows } = await inHouse(client, id, () =>
      client.query<NamedBook>(
        `SELECT b.organisation, b.id, b.type, b.name, b.zone, b.size, o.name AS of FROM book b JOIN organisation o ON o.id = b.organisation
         WHERE b.organisation = $1 ORDER BY b.type, b.name, b.id`,
        [id],
      ),
    );
    all.push(...rows);
  }
  return all;
}

/** The people of any organisation that this is the name or the id of. */
export async function peopleCalled(owner: ClientBase, nameOrId: string): Promise<readonly Person[]> {
  const { rows } = await owner.query<Person>(
    'SELECT organisation, id FROM person WHERE name = $1 OR id::text = lower($1) ORDER BY id LIMIT 2',
    [nameOrId],
  );
  return rows;
}
