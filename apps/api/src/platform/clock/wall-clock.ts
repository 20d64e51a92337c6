import { dayText, wallClock } from '@bakehouse/kernel';

/** `25 Nov 2026 05:12`: how every time on a paper is written. The paper names the zone once. */
export function wallTime(at: string, zone: string): string {
  const { day, time } = wallClock(at, zone);
  return `${dayText(day)} ${time}`;
}
