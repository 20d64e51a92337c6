import { projectionVersion } from '@bakehouse/records';
import { connected, type Database, type TableRow } from '../database/index.js';

/** Throws, with a sentence and the command, where rows were made by another version of the kinds' `rows`: they would be served as if they were right. */
export async function refuseRowsOfAnotherVersion({ ownerUrl }: Pick<Database, 'ownerUrl'>): Promise<void> {
  const { rows } = await connected(ownerUrl, (owner) =>
    owner.query<Pick<TableRow<'book'>, 'name'>>('SELECT name FROM book WHERE size > 0 AND projection <> $1 ORDER BY name, id', [
      projectionVersion,
    ]),
  );
  const names = rows.map((r) => r.name);
  if (names.length === 0) return;
  const few = `${names.slice(0, 3).join(', ')}${names.length > 3 ? ` and ${names.length - 3} more` : ''}`;
  throw new Error(
    `The records are whole, but the tables made from them (${few}) are another version's. Make them again, then start: npm run records -- rebuild`,
  );
}
