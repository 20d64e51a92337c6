import { role } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import * as z from 'zod';
import type { Columns, Computed, Holds, Maybe, TableRow } from '../database/index.js';
import { accessesInForce, hasLeft, rolesInForce } from './people.query.js';
import type { RoleHeld, Strength } from './permissions.js';
import type { InspectionHeld } from './session.js';

type Session = TableRow<'session'>;
export interface StoredSession
  extends
    Columns<Pick<Session, 'tokenHash' | 'id' | 'person' | 'device' | 'expiresAt' | 'lastSeenAt' | 'endedAt'>>,
    Maybe<Pick<TableRow<'person'>, 'name'>> {
  readonly strength: Holds<Session['strength'], Strength>;
  readonly device_revoked: Computed<boolean>;
  readonly has_left: Computed<boolean>;
  readonly held: Computed<unknown>;
  readonly accesses: Computed<unknown>;
  readonly sites: Computed<readonly string[]>;
}

const heldRows = z.array(z.object({ role: z.string(), site: z.string().nullable() }));
const accessRows = z.array(z.object({ sites: z.array(z.string()), from: z.string(), until: z.string().nullable(), expires: z.string() }));

/** What the rows give: an access makes its holder an inspector at its sites. A role that this program does not know brings nothing. */
export function heldFrom(roles: unknown, accesses: unknown): { held: RoleHeld[]; inspections: InspectionHeld[] } {
  const inspections = accessRows.parse(accesses).map((a) => ({ ...a, expires: new Date(a.expires).toISOString() }));
  const given = heldRows.parse(roles).flatMap(({ role: name, site }) => {
    const known = role.exclude(['inspector']).safeParse(name);
    return known.success ? [{ role: known.data, site }] : [];
  });
  return { inspections, held: [...given, ...inspections.flatMap((i) => i.sites.map((site) => ({ role: 'inspector' as const, site })))] };
}

/** These sessions with everything that decides what each may do now, by the hash of their token in hex: one query. */
export async function findSessions(
  client: ClientBase,
  organisation: string,
  hashes: readonly Buffer[],
  now: string,
): Promise<Map<string, StoredSession>> {
  const { rows } = await client.query<StoredSession>({
    name: 'sessions by token',
    text: `SELECT s.token_hash, s.id, s.person, p.name, s.device, s.strength, s.expires_at, s.last_seen_at, s.ended_at,
             d.revoked_at IS NOT NULL AS device_revoked, ${hasLeft('s.person')} AS has_left,
             (SELECT coalesce(jsonb_agg(r), '[]') FROM (${rolesInForce('s.person', '$3')}) r) AS held,
             (SELECT coalesce(jsonb_agg(a), '[]') FROM (${accessesInForce('s.person', '$3')}) a) AS accesses,
             ARRAY(SELECT b.id FROM book b WHERE b.organisation = $1 AND b.type = 'site' ORDER BY b.name, b.id) AS sites
           FROM session s
           LEFT JOIN person p ON p.organisation = $1 AND p.id = s.person
           LEFT JOIN device d ON d.organisation = $1 AND d.id = s.device
           WHERE s.organisation = $1 AND s.token_hash = ANY($2)`,
    values: [organisation, hashes, now],
  });
  return new Map(rows.map((row) => [row.token_hash.toString('hex'), row]));
}
