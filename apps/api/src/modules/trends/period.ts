import { dayBounds, daysAfter, siteDay } from '@bakehouse/kernel';
import * as z from 'zod';
import { ProblemException } from '../../platform/http/index.js';
import type { BookInfo } from '../../platform/ledger/index.js';

/** A year and the day that it is compared with. */
export const maxDays = 366;
const usualDays = 28;

export const days = { from: z.iso.date().optional(), until: z.iso.date().optional() };
export interface DaysAsked {
  readonly from?: string | undefined;
  readonly until?: string | undefined;
}
export interface Days {
  readonly from: string;
  readonly until: string;
  readonly begins: string;
  readonly ends: string;
}

/**
 * The days that are asked for: the last four weeks where nothing is said.
 * @throws ProblemException where they are out of order or too many
 */
export function daysFor({ from: asked, until: last }: DaysAsked, site: BookInfo, now: string): Days {
  const until = last ?? siteDay(now, site);
  const from = asked ?? daysAfter(until, 1 - usualDays);
  if (from > until || daysAfter(from, maxDays) <= until)
    throw new ProblemException({
      problem: 'unacceptable-value',
      field: 'from',
      acceptable: `a day not after “until”, and at most ${maxDays} days together`,
    });
  return { from, until, begins: dayBounds(from, site.zone, site.dayStarts).from, ends: dayBounds(until, site.zone, site.dayStarts).until };
}
