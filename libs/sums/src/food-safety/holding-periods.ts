import type { Decimal } from 'decimal.js';
import { crossing, exactMinutes, type Profile } from './profile.js';

/** Temperatures strictly between the two count as outside control; use ±Infinity for an open side. */
export interface Forbidden {
  readonly above: number;
  readonly below: number;
}

/** Where a period begins or ends: at a reading, or where the line after that reading passes a temperature. */
interface Edge {
  readonly reading: number;
  readonly passing: number | null;
}
interface Period {
  readonly from: Edge;
  readonly to: Edge;
  readonly minutes: number;
}

export interface OutsideTime {
  readonly longest: Decimal;
  readonly totalMinutes: number;
  readonly periods: number;
  /** The last reading is outside, so the last period is not over. */
  readonly stillOutside: boolean;
}

/** How long, how often and how long at most a profile is outside control. Touching the limit for no time does not end a period. */
export function timeOutside(profile: Profile, forbidden: Forbidden): OutsideTime {
  const isOutside = (celsius: number) => celsius > forbidden.above && celsius < forbidden.below;
  const last = profile.at(-1);
  const stillOutside = last !== undefined && isOutside(last.celsius);
  if (profile.length === 1) return { longest: exactMinutes(0), totalMinutes: 0, periods: stillOutside ? 1 : 0, stillOutside };
  let longest: Period | null = null;
  let totalMinutes = 0;
  let periods = 0;
  for (const period of periodsOf(profile, forbidden)) {
    periods++;
    totalMinutes += period.minutes;
    if (longest === null || period.minutes > longest.minutes) longest = period;
  }
  const exact = longest === null ? exactMinutes(0) : moment(profile, longest.to).minus(moment(profile, longest.from));
  return { longest: exact, totalMinutes: periods === 1 ? exact.toNumber() : totalMinutes, periods, stillOutside };
}

function moment(profile: Profile, edge: Edge): Decimal {
  const [a, b] = [profile[edge.reading], profile[edge.reading + 1]];
  if (edge.passing === null || a === undefined || b === undefined) return exactMinutes(a?.minutes ?? 0);
  return crossing(a, b, edge.passing);
}

function* periodsOf(profile: Profile, forbidden: Forbidden): Generator<Period> {
  let from: Edge | null = null;
  let minutes = 0;
  for (let i = 0; i + 1 < profile.length; i++) {
    const part = partOutside(profile, i, forbidden);
    if (part === null) {
      if (from !== null) yield { from, to: { reading: i, passing: null }, minutes };
      from = null;
      continue;
    }
    if (from === null) [from, minutes] = [part.from, 0];
    minutes += part.minutes;
    if (part.to.reading !== i + 1) {
      yield { from, to: part.to, minutes };
      from = null;
    }
  }
  if (from !== null) yield { from, to: { reading: profile.length - 1, passing: null }, minutes };
}

/** The part of the line after reading `i` that lies outside control; null where none does. */
function partOutside(profile: Profile, i: number, { above, below }: Forbidden): Period | null {
  const [a, b] = [profile[i], profile[i + 1]];
  if (a === undefined || b === undefined) return null;
  const [ca, cb] = [a.celsius, b.celsius];
  const span = b.minutes - a.minutes;
  const starts: Edge = { reading: i, passing: null };
  const ends: Edge = { reading: i + 1, passing: null };
  if (Math.max(ca, cb) <= above || Math.min(ca, cb) >= below) return null;
  if (ca === cb) return { from: starts, to: ends, minutes: span };
  const [entry, exit] = cb > ca ? [above, below] : [below, above];
  const share = (celsius: number) => (celsius - ca) / (cb - ca);
  const enters = cb > ca ? ca < entry : ca > entry;
  const leaves = cb > ca ? cb > exit : cb < exit;
  return {
    from: enters ? { reading: i, passing: entry } : starts,
    to: leaves ? { reading: i, passing: exit } : ends,
    minutes: ((leaves ? share(exit) : 1) - (enters ? share(entry) : 0)) * span,
  };
}
