import type { PeopleList } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { accessesInForce, rolesInForce } from '../../platform/access/index.js';
import type { Computed, Maybe } from '../../platform/database/index.js';

interface RoleHeld extends Pick<Row<'roleGiven'>, 'role' | 'site' | 'until'> {
  readonly given: Row<'roleGiven'>['id'];
}
interface AccessHeld extends Pick<Row<'accessGiven'>, 'from' | 'until' | 'expires'> {
  readonly access: Row<'accessGiven'>['id'];
}
interface PersonRow extends Pick<Row<'person'>, 'id' | 'name' | 'joinedAt'> {
  readonly leftAt: Maybe<Row<'personLeft'>>['at'];
  readonly hasPin: Computed<boolean>;
  readonly roles: Computed<RoleHeld[]>;
  readonly accesses: Computed<AccessHeld[]>;
}

/** As JSON dates elsewhere: UTC with milliseconds. */
const isoForm = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"';

/** Everybody of an organisation, by name, those who left last; roles and accesses that hold now. One query. */
export async function everybody(client: ClientBase, organisation: string, now: string): Promise<PeopleList> {
  const { rows } = await client.query<PersonRow>(
    `SELECT p.id, p.name, p.joined_at AS "joinedAt", l.at AS "leftAt", EXISTS (SELECT FROM credential c WHERE c.organisation = $1 AND c.person = p.id) AS "hasPin", r.roles, a.accesses
     FROM person p
     LEFT JOIN LATERAL (SELECT min(at) AS at FROM person_left l WHERE l.organisation = $1 AND l.person = p.id) l ON true
     CROSS JOIN LATERAL (
       SELECT coalesce(json_agg(json_build_object('given', g.id, 'role', g.role, 'site', g.site, 'until', to_char(g.until AT TIME ZONE 'UTC', '${isoForm}')) ORDER BY g.id), '[]') AS roles
       FROM (${rolesInForce('p.id', '$2::timestamptz')}) g) r
     CROSS JOIN LATERAL (
       SELECT coalesce(json_agg(json_build_object('access', g.id, 'from', g."from", 'until', g."until", 'expires', to_char(g.expires AT TIME ZONE 'UTC', '${isoForm}')) ORDER BY g.id), '[]') AS accesses
       FROM (${accessesInForce('p.id', '$2::timestamptz')}) g) a
     WHERE p.organisation = $1 ORDER BY l.at IS NOT NULL, lower(p.name), p.id`,
    [organisation, now],
  );
  return rows;
}
