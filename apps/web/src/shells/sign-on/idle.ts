import { systemClock } from '@bakehouse/offline';

/** A tapped name counts for so long after the last touch of a shared tablet. */
export const idleMinutes = 15;
const key = 'last touched';

/** Somebody touched this tablet now. Kept beside the page: a reload is not a touch, and a page opened anew was touched by nobody. */
export function touched(): void {
  sessionStorage.setItem(key, String(systemClock.now().getTime()));
}

/** Nobody touched it for so long that somebody else may stand before it. */
export function isIdle(): boolean {
  const last = Number(sessionStorage.getItem(key) ?? 0);
  return systemClock.now().getTime() - last >= idleMinutes * 60_000;
}
