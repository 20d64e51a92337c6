import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { coldest, hottest } from './fields.js';

export interface ProfilePoint {
  readonly minutes: number;
  readonly celsius: number;
}
export type Profile = readonly ProfilePoint[];

export const profileLimit = 1_000_000;
const echoLimit = 1_000;
const longestMinutes = 527_040; // 366 days
const notBelievable = 110;

/** Two moments closer than this are one: 60 nanoseconds, far less than any clock shows, far more than adding binary fractions loses. */
export const timeGuard = 1e-9;
const Exact = Decimal.clone({ precision: 60 });

/**
 * A time-temperature profile. Minutes may repeat (a step: two temperatures at one moment) but not go back.
 * One pass that stops at the first bad point: a million points, all wrong, must not become a million complaints.
 */
export function profileSchema(atLeast: number): z.ZodType<Profile> {
  return z
    .any()
    .superRefine((raw: unknown, context) => {
      const found = firstFault(raw, atLeast);
      if (found !== null) context.addIssue({ code: 'custom', path: [...found.path], message: found.message });
    })
    .meta({
      description: 'readings in time order, in minutes and °C; between readings the temperature is taken as a straight line',
      type: 'array',
      minItems: atLeast,
      maxItems: profileLimit,
      items: {
        type: 'object',
        required: ['minutes', 'celsius'],
        additionalProperties: false,
        properties: {
          minutes: { type: 'number', minimum: 0, maximum: longestMinutes },
          celsius: { type: 'number', minimum: coldest, maximum: hottest },
        },
      },
    });
}

interface Fault {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

function firstFault(raw: unknown, atLeast: number): Fault | null {
  if (!Array.isArray(raw) || raw.length < atLeast || raw.length > profileLimit) {
    return { path: [], message: `a list of ${atLeast} to ${profileLimit} readings { minutes, celsius }` };
  }
  let before = 0;
  for (let i = 0; i < raw.length; i++) {
    const point: unknown = raw[i];
    if (!isPoint(point)) return pointFault(point, i);
    if (point.minutes < before)
      return { path: [i, 'minutes'], message: `minutes in time order: ${before} or more, as in the reading before` };
    before = point.minutes;
  }
  return null;
}

function isPoint(point: unknown): point is ProfilePoint {
  if (typeof point !== 'object' || point === null || !('minutes' in point) || !('celsius' in point)) return false;
  let fields = 0;
  for (const _ in point) fields++;
  return fields === 2 && inRange(point.minutes, 0, longestMinutes) && inRange(point.celsius, coldest, hottest);
}

function pointFault(point: unknown, i: number): Fault {
  const form = 'a reading with the fields minutes and celsius, and no others';
  if (typeof point !== 'object' || point === null) return { path: [i], message: form };
  const minutes: unknown = 'minutes' in point ? point.minutes : undefined;
  const celsius: unknown = 'celsius' in point ? point.celsius : undefined;
  if (!inRange(minutes, 0, longestMinutes))
    return { path: [i, 'minutes'], message: `minutes since the start, a number from 0 to ${longestMinutes}` };
  if (!inRange(celsius, coldest, hottest))
    return { path: [i, 'celsius'], message: `a temperature in °C, a number from ${coldest} to ${hottest}` };
  return { path: [i], message: form };
}

function inRange(figure: unknown, min: number, max: number): figure is number {
  return typeof figure === 'number' && figure >= min && figure <= max; // NaN fails both
}

/** The profile for the echo: whole up to a thousand readings, above that its size, ends and extremes. */
export function echoProfile(profile: Profile): unknown {
  if (profile.length <= echoLimit) return profile;
  const range = temperatureRange(profile);
  return { readings: profile.length, first: profile[0], last: profile.at(-1), coldestCelsius: range.min, hottestCelsius: range.max };
}

/** Lowest and highest temperature of the profile, °C. */
export function temperatureRange(profile: Profile): { min: number; max: number } {
  let min = Infinity;
  let max = -Infinity;
  for (const point of profile) {
    if (point.celsius < min) min = point.celsius;
    if (point.celsius > max) max = point.celsius;
  }
  return { min, max };
}

/** The exact moment, in minutes, at which the straight line from `a` to `b` passes `celsius`; `a` where the line is level. */
export function crossing(a: ProfilePoint, b: ProfilePoint, celsius: number): Decimal {
  const start = new Exact(a.minutes);
  if (a.celsius === b.celsius) return start;
  const share = new Exact(celsius).minus(a.celsius).div(new Exact(b.celsius).minus(a.celsius));
  return start.plus(share.times(new Exact(b.minutes).minus(a.minutes)));
}

/** Exact decimal of a moment or a duration in minutes. */
export const exactMinutes = (minutes: number): Decimal => new Exact(minutes);

/** "Within" includes its end: 4:00:00 is within 4 h. */
export const isWithin = (duration: Decimal, minutes: number): boolean => duration.minus(minutes).lte(timeGuard);

/** "Less than" does not include its end: 4:00:00 is not less than 4 h. */
export const isLessThan = (duration: Decimal, minutes: number): boolean => duration.minus(minutes).lt(-timeGuard);

/** What to say about readings that the core of a food cannot show at ordinary pressure. */
export function beliefCautions(profile: Profile): string[] {
  return temperatureRange(profile).max > notBelievable
    ? [
        `A reading above ${notBelievable} °C is not believable for food at ordinary pressure: check the probe, and that the figures are °C and not °F.`,
      ]
    : [];
}

export const betweenReadings = 'Between readings the temperature is taken as a straight line; what happened between them was not measured.';
