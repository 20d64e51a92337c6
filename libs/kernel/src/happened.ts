import type { Certainty, Envelope } from './entry.js';
import { isInCalendar } from './fields.js';

/** A clock may run so far ahead before its word about the time is not believed. */
export const aheadMs = 10 * 60_000;

/** When it happened, by true time in UTC, and how sure that is. */
export interface Happened {
  readonly at: string;
  readonly until: string | null;
  readonly precision: Certainty;
}

/**
 * When an entry happened, as everything derived from it takes it: rows, order, windows and limits. What a device read from its own clock is
 * corrected by the error that it had measured; what a person typed came from a clock on the wall, or from memory, and stands. A device's time
 * that is still to come when it is recorded is not known: it happened by then.
 */
export function happened({ occurredAt, device }: Pick<Envelope, 'occurredAt' | 'device'>, recordedAt?: string): Happened {
  const byDevice = isByDevice(occurredAt);
  const trueTime = (instant: string): string => corrected(instant, byDevice ? (device.clockErrorMs ?? 0) : 0);
  const at = trueTime(occurredAt.at);
  if (byDevice && recordedAt !== undefined && isAhead(at, recordedAt)) return { at: recordedAt, until: null, precision: 'unknown' };
  return { at, until: occurredAt.until === undefined ? null : trueTime(occurredAt.until), precision: occurredAt.precision };
}

export const isAhead = (at: string, now: string): boolean =>
  !(isWritten(at) && isWritten(now) && at <= now) && Date.parse(at) > Date.parse(now) + aheadMs;

const isByDevice = ({ clock, precision }: Envelope['occurredAt']): boolean =>
  clock === undefined ? precision === 'exact' : clock === 'device';

/** An instant as we write them, in UTC and to the millisecond: these compare as text, and most that come are already so. */
const isWritten = (instant: string): boolean => instant.length === 24 && instant.endsWith('Z');

function corrected(instant: string, errorMs: number): string {
  if (errorMs === 0 && isWritten(instant)) return instant;
  const read = Date.parse(instant);
  const moved = read - errorMs;
  return new Date(isInCalendar(moved) ? moved : read).toISOString();
}

/** How much earlier or later something may have been whose time was typed as *about*: a choice of ours, no source. */
const aboutMs = 60 * 60_000;
const anyTime = '0001-01-01T00:00:00.000Z';

/** Between when it may have happened, where that is not known to be its own instant: null where it is. */
export interface TimeDoubt {
  readonly earliest: string | null;
  readonly latest: string | null;
}

/** What is known of a time beside its instant: *about* is an hour either way, *between* as it says, and what a wrong clock wrote had happened by when it was recorded. */
export function timeDoubt({ at, until, precision }: Happened): TimeDoubt {
  const moved = (ms: number): string => new Date(Date.parse(at) + ms).toISOString();
  if (precision === 'about') return { earliest: moved(-aboutMs), latest: moved(aboutMs) };
  if (precision === 'between') return { earliest: null, latest: until };
  return { earliest: precision === 'unknown' ? anyTime : null, latest: null };
}

interface Timed extends Partial<TimeDoubt> {
  readonly at: string;
}
/** The first and the last instant at which it may have happened. */
export const earliestOf = ({ at, earliest }: Timed): string => earliest ?? at;
export const latestOf = ({ at, latest }: Timed): string => latest ?? at;
