import type { OpenSessions } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import { hasLeft, whyEnded, type AccessSettings, type Strength } from '../../platform/access/index.js';
import type { Columns, Computed, Holds, TableRow } from '../../platform/database/index.js';

type Session = TableRow<'session'>;
interface SessionRow extends Columns<Pick<Session, 'id' | 'device' | 'createdAt' | 'lastSeenAt' | 'expiresAt'>> {
  readonly strength: Holds<Session['strength'], Strength>;
  readonly device_name: Computed<string | null>;
  readonly device_revoked: Computed<boolean>;
  readonly has_left: Computed<boolean>;
}

/** Where somebody is signed on now, what was used last first: the sessions that the next request would still be let in with. */
export async function openSessionsOf(
  client: ClientBase,
  organisation: string,
  person: string,
  now: Date,
  settings: AccessSettings,
): Promise<Omit<OpenSessions[number], 'current'>[]> {
  const { rows } = await client.query<SessionRow>(
    `SELECT s.id, s.device, s.strength, s.created_at, s.last_seen_at, s.expires_at, d.name AS device_name,
       d.revoked_at IS NOT NULL AS device_revoked, ${hasLeft('s.person')} AS has_left
     FROM session s LEFT JOIN device d ON d.organisation = $1 AND d.id = s.device
     WHERE s.organisation = $1 AND s.person = $2 AND s.ended_at IS NULL
     ORDER BY s.last_seen_at DESC, s.id`,
    [organisation, person],
  );
  return rows
    .filter((row) => whyEnded(row, now, settings) === undefined)
    .map(({ id, device, device_name, strength, created_at, last_seen_at, expires_at }) => ({
      id,
      device: device === null ? null : { id: device, name: device_name ?? '' },
      strength,
      since: created_at,
      lastSeen: last_seen_at,
      expiresAt: expires_at,
    }));
}
