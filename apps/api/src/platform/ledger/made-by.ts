import { projectionVersion } from '@bakehouse/records';
import { connected, inHouse, organisationIds, type ServiceDatabase, type TableRow } from '../database/index.js';

/** Throws, with a sentence and the command, where rows were made by another version of the kinds' `rows`: they would be served as if they were right. */
export async function refuseRowsOfAnotherVersion({ serviceUrl }: Pick<ServiceDatabase, 'serviceUrl'>): Promise<void> {
  const names = await connected(serviceUrl, async (client) => {
    const found: string[] = [];
    for (const id of await organisationIds(client)) {
      const { rows } = await inHouse(client, id, () =>
        client.query<Pick<TableRow<'book'>, 'name'>>(
          'SELECT name FROM book WHERE organisation = $1 AND size > 0 AND projection <> $2 ORDER BY name, id',
          [id, projectionVersion],
        ),
      );
      found.push(...rows.map(({ name }) => name));
    }
    return found;
  });
  if (names.length === 0) return;
  const few = `${names.slice(0, 3).join(', ')}${names.length > 3 ? ` and ${names.length - 3} more` : ''}`;
  throw new Error(
    `The records are whole, but the tables made from them (${few}) are another version's. Make them again, then start: npm run records -- rebuild`,
  );
}
