import { daysAfter, siteDay } from '@bakehouse/kernel';
import type { BookInfo } from '../../platform/ledger/index.js';
import { periodOf, type Period, type RequestedPeriod } from '../inspection/index.js';

/** A year and the day that it is compared with. */
const maxDays = 366;
const usualDays = 28;

/**
 * The days that are asked for: the last four weeks where nothing is said.
 * @throws ProblemException where they are out of order or too many
 */
export function daysFor(asked: RequestedPeriod, site: BookInfo, now: string): Period {
  const until = asked.until ?? siteDay(now, site);
  return periodOf({ from: asked.from ?? daysAfter(until, 1 - usualDays), until }, site, maxDays);
}
