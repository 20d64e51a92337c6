import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import type { BookRef } from '../../platform/ledger/index.js';

/** What happened at a site at least once. */
export interface Happened {
  readonly delivery: Computed<boolean>;
  readonly opened: Computed<boolean>;
  readonly dough: Computed<boolean>;
  readonly load: Computed<boolean>;
  readonly release: Computed<boolean>;
}

/** Whether the first of each thing has come: it stops at the first that it finds. */
export async function happenedAt(client: ClientBase, { organisation, id }: BookRef): Promise<Happened> {
  const any = (table: string): string => `EXISTS (SELECT FROM ${table} t WHERE t.organisation = $1 AND t.book = $2)`;
  const { rows } = await client.query<Happened>(
    `SELECT ${any('delivery')} AS delivery, ${any('in_use')} AS opened, ${any('make')} AS dough, ${any('load')} AS load, ${any('release')} AS release`,
    [organisation, id],
  );
  const [happened] = rows;
  if (!happened) throw new Error('a statement without a table gave no row');
  return happened;
}

/** The tablets of a site that are enrolled now, by name. */
export async function tabletsAt(client: ClientBase, { organisation, id }: BookRef): Promise<readonly string[]> {
  const { rows } = await client.query<Pick<TableRow<'device'>, 'name'>>(
    'SELECT name FROM device WHERE organisation = $1 AND site = $2 AND revoked_at IS NULL ORDER BY lower(name), id',
    [organisation, id],
  );
  return rows.map((r) => r.name);
}
