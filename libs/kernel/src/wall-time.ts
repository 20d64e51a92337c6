import { Temporal } from 'temporal-polyfill';

// The one place that knows zones: instants and an IANA zone in, what the clock and the calendar on a site's wall show out.
// An instant is ISO 8601 with Z or an offset. A zone, an instant or a date that does not exist is a RangeError.

const zoned = (at: string, zone: string): Temporal.ZonedDateTime => Temporal.Instant.from(at).toZonedDateTimeISO(zone);
const isoOf = ({ epochMilliseconds }: { readonly epochMilliseconds: number }): string => new Date(epochMilliseconds).toISOString();

/** What the wall shows at an instant, and by how much its clock is off UTC there and then. */
export interface WallClock {
  /** `2026-11-25`. */
  readonly day: string;
  /** `05:12`. */
  readonly time: string;
  /** `+00:00`. */
  readonly offset: string;
}

export function wallClock(at: string, zone: string): WallClock {
  const wall = zoned(at, zone);
  return {
    day: wall.toPlainDate().toString(),
    time: wall.toPlainTime().toString({ smallestUnit: 'minute' }),
    offset: wall.offset,
  };
}

/** `05:12`. */
export const wallTime = (at: string, zone: string): string => wallClock(at, zone).time;

/** When it was, as it reads after "between" where it has an end: `25 Nov 2026 03:10 and 03:40`. The end has its day where that is another. */
export function spanText(
  { at, until }: { readonly at: string; readonly until: string | null },
  zone: string,
  shown: (at: string, zone: string) => string,
): string {
  if (until === null) return shown(at, zone);
  return `${shown(at, zone)} and ${localDay(at, zone) === localDay(until, zone) ? wallTime(until, zone) : shown(until, zone)}`;
}

/** The date on the wall at an instant. */
export const localDay = (at: string, zone: string): string => wallClock(at, zone).day;

/** An instant with the offset that the wall has: `2026-11-25T03:40:12.345+00:00`. */
export const onTheWall = (at: string, zone: string): string =>
  zoned(at, zone).toString({ timeZoneName: 'never', fractionalSecondDigits: 3 });

/** What the wall shows as if it were UTC, for a spreadsheet, whose dates have no zone. */
export const wallFigures = (at: string, zone: string): Date =>
  new Date(zoned(at, zone).toPlainDateTime().toZonedDateTime('UTC').epochMilliseconds);

export function isZone(zone: string): boolean {
  try {
    return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone).timeZoneId !== '';
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/**
 * The last instant until `now` at which the wall showed a time (HH:MM), as far into its minute as `now` is: what is typed as this very minute did not
 * happen before what was recorded a moment ago. Of a time that came twice it is the last that has been; one that the clock skipped is taken as a
 * clock that nobody put forward showed it, or, where that is still to come, as one put forward too early. Undefined for what is no time.
 */
export function lastShown(time: string, zone: string, now: string): string | undefined {
  const [, hour, minute] = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(time) ?? [];
  if (hour === undefined || minute === undefined) return undefined;
  const wall = zoned(now, zone);
  const shown = wall.toPlainDateTime().with({ hour: Number(hour), minute: Number(minute) });
  const last = [shown, shown.subtract({ days: 1 })]
    .flatMap((at) => (['later', 'earlier'] as const).map((disambiguation) => at.toZonedDateTime(zone, { disambiguation })))
    .find((at) => at.epochMilliseconds <= wall.epochMilliseconds);
  return last && isoOf(last);
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** `2026-11-25` → `25 Nov 2026`: no order of figures that could be read two ways. */
export function dayText(day: string): string {
  const { day: date, month, year } = Temporal.PlainDate.from(day);
  return `${date} ${months[month - 1] ?? ''} ${year}`;
}

/** A date so many days later; days may be negative. */
export const daysAfter = (day: string, days: number): string => Temporal.PlainDate.from(day).add({ days }).toString();

/** The day of the year of a date, 1 to 366. */
export const dayOfYear = (day: string): number => Temporal.PlainDate.from(day).dayOfYear;

/** Monday is 1, Sunday 7. */
export const dayOfWeek = (day: string): number => Temporal.PlainDate.from(day).dayOfWeek;

/** So many elapsed minutes or hours later, or earlier where they are below nothing: not hours on the wall, which stand still or jump in a night when the clocks change. */
export const minutesAfter = (at: string, minutes: number): string => new Date(Date.parse(at) + minutes * 60_000).toISOString();
export const hoursAfter = (at: string, hours: number): string => minutesAfter(at, 60 * hours);

/** Whole seconds from one instant to another: elapsed time, the same over a clock change. */
export const secondsBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 1000);

/**
 * The instants at which a site's day begins and ends: it starts when the site says (HH:MM on the wall), and on a clock-change night is 23 or 25 hours long.
 * `extraDays` widens it on either side.
 */
export function dayBounds(
  day: string,
  zone: string,
  dayStarts = '00:00',
  extraDays: { before: number; after: number } = { before: 0, after: 0 },
): { from: string; until: string } {
  const date = Temporal.PlainDate.from(day);
  const plainTime = Temporal.PlainTime.from(dayStarts);
  const at = (d: Temporal.PlainDate): string => isoOf(d.toZonedDateTime({ timeZone: zone, plainTime }));
  return { from: at(date.subtract({ days: extraDays.before })), until: at(date.add({ days: 1 + extraDays.after })) };
}

/** A site's day at an instant: until its day starts (HH:MM on the wall) it is still yesterday's. */
export function siteDay(at: string, { zone, dayStarts }: { readonly zone: string; readonly dayStarts: string }): string {
  const day = localDay(at, zone);
  return Date.parse(dayBounds(day, zone, dayStarts).from) <= Date.parse(at) ? day : daysAfter(day, -1);
}
