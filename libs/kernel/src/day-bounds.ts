import { Temporal } from 'temporal-polyfill';
import { daysAfter, localDay } from './local-day.js';

/**
 * The instants at which a site's day begins and ends: it starts when the site says (HH:MM on the wall), and on a clock-change night is 23 or 25 hours long.
 * `extraDays` widens it on either side. Throws on a zone or a date that does not exist.
 */
export function dayBounds(
  day: string,
  zone: string,
  dayStarts = '00:00',
  extraDays: { before: number; after: number } = { before: 0, after: 0 },
): { from: string; until: string } {
  const date = Temporal.PlainDate.from(day);
  const at = (d: Temporal.PlainDate): string =>
    new Date(d.toZonedDateTime({ timeZone: zone, plainTime: Temporal.PlainTime.from(dayStarts) }).epochMilliseconds).toISOString();
  return { from: at(date.subtract({ days: extraDays.before })), until: at(date.add({ days: 1 + extraDays.after })) };
}

/** The site's day at an instant: until its day starts (HH:MM on the wall) it is still yesterday's. Throws on a zone that does not exist. */
export function siteDay(at: string, { zone, dayStarts }: { readonly zone: string; readonly dayStarts: string }): string {
  const day = localDay(at, zone);
  return dayBounds(day, zone, dayStarts).from <= at ? day : daysAfter(day, -1);
}
