import type { Decimal } from 'decimal.js';
import { crossing, exactMinutes, isWithin, type Profile } from './profile.js';

export interface CoolingStage {
  /** Null where the clock starts at the first reading. */
  readonly fromCelsius: number | null;
  readonly toCelsius: number;
  readonly withinMinutes: number;
}
export type CoolingVerdict = 'pass' | 'fail' | 'open' | 'undetermined';
export interface JudgedStage extends CoolingStage {
  readonly verdict: CoolingVerdict;
  /** From the start of the stage until its end temperature, or until the last reading where it is not reached. */
  readonly observedMinutes: number | null;
  readonly reached: boolean;
  readonly startSeen: boolean;
  readonly rewarmed: boolean;
}

/**
 * Judges one stage. It starts when the food first falls below `fromCelsius` (a later rise does not restart the clock), and ends when the food is at
 * `toCelsius` or below for good, "for good" meaning until `finishedAt`, the index of the reading by which the last stage's end was first reached.
 * `over` says that no more readings will come.
 */
export function judgeStage(profile: Profile, stage: CoolingStage, finishedAt: number, over: boolean): JudgedStage {
  const start = startOf(profile, stage.fromCelsius);
  if (start === null)
    return { ...stage, verdict: over ? 'undetermined' : 'open', observedMinutes: null, reached: false, startSeen: false, rewarmed: false };
  const end = endOf(profile, stage.toCelsius, finishedAt);
  const last = exactMinutes(profile.at(-1)?.minutes ?? 0);
  const observed = (end.moment ?? last).minus(start.moment);
  const inTime = isWithin(observed, stage.withinMinutes);
  return {
    ...stage,
    verdict: verdictOf(inTime, end.moment !== null, start.seen, over || observed.minus(stage.withinMinutes).gte(0)),
    observedMinutes: observed.isNegative() ? 0 : observed.toNumber(),
    reached: end.moment !== null,
    startSeen: start.seen,
    rewarmed: end.rewarmed,
  };
}

function verdictOf(inTime: boolean, reached: boolean, startSeen: boolean, timeOver: boolean): CoolingVerdict {
  if (!inTime) return 'fail';
  if (reached) return startSeen ? 'pass' : 'undetermined';
  if (timeOver) return 'fail';
  return startSeen ? 'open' : 'undetermined';
}

/** Null where the food has not yet fallen below `from`; not `seen` where it was already below at the first reading. */
function startOf(profile: Profile, from: number | null): { moment: Decimal; seen: boolean } | null {
  const first = profile[0];
  if (first === undefined) return null;
  if (from === null) return { moment: exactMinutes(first.minutes), seen: true };
  if (first.celsius < from) return { moment: exactMinutes(first.minutes), seen: false };
  const below = profile.findIndex((point) => point.celsius < from);
  const [a, b] = [profile[below - 1], profile[below]];
  return a === undefined || b === undefined ? null : { moment: crossing(a, b, from), seen: true };
}

/** The first reading at or below `celsius`, or the last reading where there is none. */
export function firstReading(profile: Profile, celsius: number): number {
  const found = profile.findIndex((point) => point.celsius <= celsius);
  return found === -1 ? profile.length - 1 : found;
}

function endOf(profile: Profile, to: number, finishedAt: number): { moment: Decimal | null; rewarmed: boolean } {
  const reachedOnce = firstReading(profile, to);
  const lastPoint = profile[finishedAt];
  if (lastPoint === undefined || lastPoint.celsius > to) return { moment: null, rewarmed: (profile[reachedOnce]?.celsius ?? to + 1) <= to };
  let above = finishedAt - 1;
  while (above >= 0 && (profile[above]?.celsius ?? to) <= to) above--;
  const [a, b] = [profile[above], profile[above + 1]];
  const moment = a === undefined || b === undefined ? exactMinutes(profile[0]?.minutes ?? 0) : crossing(a, b, to);
  return { moment, rewarmed: above > reachedOnce };
}
