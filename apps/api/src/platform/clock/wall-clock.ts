import { dayText, wallClock } from '@bakehouse/kernel';

/** `25 Nov 2026 05:12 +00:00`: how every time on a paper is written. */
export function wallTime(at: string, zone: string): string {
  const { day, time, offset } = wallClock(at, zone);
  return `${dayText(day)} ${time} ${offset}`;
}
