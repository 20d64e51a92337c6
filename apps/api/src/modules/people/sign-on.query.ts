import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { accessesInForce, hasLeft, rolesInForce } from '../../platform/access/index.js';
import type { Computed, TableRow } from '../../platform/database/index.js';

type Organisation = TableRow<'organisation'>;
export interface PersonToSignOn extends Pick<Row<'person'>, 'id' | 'name'> {
  readonly tap: Computed<boolean>;
}

/** The organisation of an installation that has one alone; null where there are more. The one question asked before anybody has said who they are. */
export async function onlyOrganisation(client: Pick<ClientBase, 'query'>): Promise<string | null> {
  const { rows } = await client.query<{ id: Computed<Organisation['id'] | null> }>('SELECT only_organisation() AS id');
  return rows[0]?.id ?? null;
}

export async function organisationName(client: ClientBase, organisation: string): Promise<string | undefined> {
  const { rows } = await client.query<Pick<Organisation, 'name'>>('SELECT name FROM organisation WHERE id = $1', [organisation]);
  return rows[0]?.name;
}

/**
 * The people who may sign on now, by name: those with a role, at one site where it is named, and inspectors whose access has not expired.
 * A tap is enough for a role at that site; leavers are absent.
 */
export async function peopleToSignOn(
  client: ClientBase,
  organisation: string,
  site: string | null,
  now: string,
): Promise<PersonToSignOn[]> {
  const { rows } = await client.query<PersonToSignOn>(
    `SELECT p.id, p.name, $3::uuid IS NOT NULL AND held.roles > 0 AS tap FROM person p
     CROSS JOIN LATERAL (
       SELECT count(*) AS roles FROM (${rolesInForce('p.id', '$2::timestamptz')}) r WHERE $3::uuid IS NULL OR r.site IS NULL OR r.site = $3) held
     CROSS JOIN LATERAL (
       SELECT count(*) AS accesses FROM (${accessesInForce('p.id', '$2::timestamptz')}) a WHERE $3::uuid IS NULL OR a.sites ? $3::text) given
     WHERE p.organisation = $1 AND held.roles + given.accesses > 0 AND NOT ${hasLeft('p.id')}
     ORDER BY lower(p.name), p.id`,
    [organisation, now, site],
  );
  return rows;
}
