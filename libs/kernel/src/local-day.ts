import { Temporal } from 'temporal-polyfill';

/** The date on the wall at an instant, in an IANA zone. Throws on a zone that does not exist. */
export const localDay = (at: string, zone: string): string => Temporal.Instant.from(at).toZonedDateTimeISO(zone).toPlainDate().toString();

/** A date so many days later; days may be negative. */
export const daysAfter = (day: string, days: number): string => Temporal.PlainDate.from(day).add({ days }).toString();

/** Whole seconds from one instant to another: elapsed time, the same over a clock change. */
export const secondsBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 1000);

/** The day of the year of a date, 1 to 366. */
export const dayOfYear = (day: string): number => Temporal.PlainDate.from(day).dayOfYear;
