import { dayBounds, daysAfter, dayText, siteDay } from '@bakehouse/kernel';
import { letsSee } from '@bakehouse/records';
import type { Period } from '@bakehouse/views';
import * as z from 'zod';
import type { SessionContext } from '../../platform/access/index.js';
import { ProblemException } from '../../platform/http/index.js';
import type { BookInfo } from '../../platform/ledger/index.js';

/** Today and the thirty days before it: what is asked on the day. Longer is asked for in parts. */
export const maxDays = 31;

/** Strict, so that a misspelt day is not silently today. */
export const requestedPeriod = z.strictObject({ from: z.iso.date().optional(), until: z.iso.date().optional() });
export type RequestedPeriod = z.infer<typeof requestedPeriod>;

/** Without the keys that were not given. */
export const given = ({ from, until }: RequestedPeriod): Partial<Pick<Period, 'from' | 'until'>> => ({
  ...(from === undefined ? {} : { from }),
  ...(until === undefined ? {} : { until }),
});

export type { Period };

/**
 * The period that is asked for; today where nothing is said.
 * @throws ProblemException where it is longer than `maxDays`, or the asker is an inspector and no access of theirs covers all of it
 */
export function periodFor(requested: RequestedPeriod, site: BookInfo, session: SessionContext, now: string): Period {
  const today = siteDay(now, site);
  const until = requested.until ?? (requested.from !== undefined && requested.from > today ? requested.from : today);
  const from = requested.from ?? until;
  const period = periodOf({ from, until }, site, maxDays);
  if (!session.permissionsAt(site.id).has('view')) requireAccess(daysOf(period), site, session, today);
  return period;
}

/**
 * These days at a site, from when the first begins to when the last ends.
 * @throws ProblemException where they are out of order, or more than so many
 */
export function periodOf({ from, until }: Pick<Period, 'from' | 'until'>, site: BookInfo, atMost: number): Period {
  if (from > until || daysAfter(from, atMost) <= until)
    throw new ProblemException({
      problem: 'unacceptable-value',
      field: 'from',
      acceptable: `a day not after \u201cuntil\u201d, and at most ${atMost} days together`,
    });
  return { from, until, begins: dayBounds(from, site.zone, site.dayStarts).from, ends: dayBounds(until, site.zone, site.dayStarts).until };
}

function daysOf({ from, until }: Period): string[] {
  const days: string[] = [];
  for (let day = from; day <= until; day = daysAfter(day, 1)) days.push(day);
  return days;
}

/** An inspector sees the days that were given to them at this site, and no others. */
function requireAccess(days: readonly string[], site: BookInfo, session: SessionContext, today: string): void {
  const accesses = session.inspections.filter((access) => access.sites.includes(site.id));
  if (days.every((day) => accesses.some((access) => letsSee(access, day, today)))) return;
  const given = accesses.map((a) => `${dayText(a.from)} to ${a.until === null ? 'today' : dayText(a.until)}`).join('; ');
  throw new ProblemException({ problem: 'not-permitted', field: 'from', ...(given === '' ? {} : { acceptable: given }) });
}
