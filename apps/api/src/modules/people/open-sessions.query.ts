import type { OpenSessions } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { AccessSettings, Strength } from '../../platform/access/index.js';
import type { Columns, Computed, Holds, TableRow } from '../../platform/database/index.js';

type Session = TableRow<'session'>;
interface SessionRow extends Columns<Pick<Session, 'id' | 'device' | 'createdAt' | 'lastSeenAt' | 'expiresAt'>> {
  readonly strength: Holds<Session['strength'], Strength>;
  readonly device_name: Computed<string | null>;
}

/** Where somebody is signed on now, what was used last first: the sessions that the next request would still be let in with. */
export async function openSessionsOf(
  client: ClientBase,
  organisation: string,
  person: string,
  now: Date,
  { pinIdleMs, tappedIdleMs }: Pick<AccessSettings, 'pinIdleMs' | 'tappedIdleMs'>,
): Promise<Omit<OpenSessions[number], 'current'>[]> {
  const seenAfter = (idleMs: number): string => new Date(now.getTime() - idleMs).toISOString();
  const { rows } = await client.query<SessionRow>(
    `SELECT s.id, s.device, s.strength, s.created_at, s.last_seen_at, s.expires_at, d.name AS device_name
     FROM session s LEFT JOIN device d ON d.organisation = $1 AND d.id = s.device
     WHERE s.organisation = $1 AND s.person = $2 AND s.ended_at IS NULL AND s.expires_at > $3 AND d.revoked_at IS NULL
       AND s.last_seen_at > CASE s.strength WHEN 'pin' THEN $4::timestamptz ELSE $5::timestamptz END
     ORDER BY s.last_seen_at DESC, s.id`,
    [organisation, person, now.toISOString(), seenAfter(pinIdleMs), seenAfter(tappedIdleMs)],
  );
  return rows.map(({ id, device, device_name, strength, created_at, last_seen_at, expires_at }) => ({
    id,
    device: device === null ? null : { id: device, name: device_name ?? '' },
    strength,
    since: created_at,
    lastSeen: last_seen_at,
    expiresAt: expires_at,
  }));
}
