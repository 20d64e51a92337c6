import type { StoredSession } from './sessions.query.js';
import type { AccessSettings } from './settings.js';

export type EndedWhy = 'signed-off' | 'idle' | 'too-long' | 'left' | 'device-revoked' | 'pin-changed' | 'ended-elsewhere';
type Open = Pick<StoredSession, 'has_left' | 'device_revoked' | 'expires_at' | 'last_seen_at' | 'strength'>;

/** Why a session that nobody ended is over; undefined while the next request is still let in with it. */
export function whyEnded(
  stored: Open,
  now: Date,
  { pinIdleMs, tappedIdleMs }: Pick<AccessSettings, 'pinIdleMs' | 'tappedIdleMs'>,
): EndedWhy | undefined {
  if (stored.has_left) return 'left';
  if (stored.device_revoked) return 'device-revoked';
  if (now.getTime() >= Date.parse(stored.expires_at)) return 'too-long';
  const idleMs = stored.strength === 'pin' ? pinIdleMs : tappedIdleMs;
  return now.getTime() - Date.parse(stored.last_seen_at) >= idleMs ? 'idle' : undefined;
}
