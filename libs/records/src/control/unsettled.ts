import { byTime, derivedId, dimensionOf, latest } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Need, Row, State } from '../base/state.js';

type Reading = Row<'reading'>;
type Check = Row<'instrumentCheck'>;

/** What of a reading says whether it can be trusted. */
export type ReadWith = Pick<Reading, 'instrument' | 'class' | 'unit' | 'at'>;

export const doubtReason = z.enum(['failed-check', 'out-of-use']);

/** Why a reading cannot be trusted: its instrument failed the check nearest to it, or was out of use. */
export interface Doubt {
  /** The deviation that the failed check opened, or the record that took the instrument out of use: what a decision about the food names. */
  readonly id: string;
  readonly why: z.infer<typeof doubtReason>;
  readonly instrument: string;
  /** The instrument as it was called when it failed. */
  readonly name: string | null;
  /** When it failed or was taken out of use. */
  readonly at: string;
}

/** The last reading of a critical point about something, which settles nothing: it was too close to call, or cannot be trusted. */
export interface Unsettled {
  readonly reading: Reading;
  readonly doubt: Doubt | null;
}

/**
 * What has to be looked for before a reading with this instrument can be trusted. An instrument that never failed costs no look at its checks. What closed a
 * deviation about it goes wherever the deviation goes, or it would stand as open there.
 */
export function trustNeeds(state: State, instrument: string): Need[] {
  const first: Need[] = [
    { in: 'deviation', by: 'subject', value: instrument },
    { in: 'instrumentOut', by: 'instrument', value: instrument },
  ];
  if (!first.every((need) => state.knows(need)) || !spokenAgainst(state, instrument)) return first;
  return [
    ...first,
    { in: 'instrumentCheck', by: 'instrument', value: instrument },
    { in: 'deviationClosed', by: 'subject', value: instrument },
  ];
}

/** What has to be looked for, as far as can be named now, before `readingsThatCount` and `unsettledAt` can be asked of a subject. */
export function countingNeeds(state: State, subject: string): Need[] {
  const readings: Need = { in: 'reading', by: 'subject', value: subject };
  if (!state.knows(readings)) return [readings];
  const graded = state.find('reading', 'subject', subject).filter((r) => r.class === 'ccp' || r.class === 'oprp');
  return [
    readings,
    ...graded.flatMap((r) => (r.instrument === null ? [] : trustNeeds(state, r.instrument))),
    ...graded.flatMap((r): Need[] => (r.class === 'ccp' && r.point !== null ? [{ in: 'controlPoint', id: r.point }] : [])),
  ];
}

const spokenAgainst = (state: State, instrument: string): boolean =>
  state.find('deviation', 'subject', instrument).length > 0 || state.find('instrumentOut', 'instrument', instrument).length > 0;

/** The checks of an instrument. Where they were not looked for, nothing speaks against it: a failed check always opened a deviation. */
function checksOf(state: State, instrument: string): readonly Check[] {
  if (state.knows({ in: 'instrumentCheck', by: 'instrument', value: instrument }))
    return state.find('instrumentCheck', 'instrument', instrument);
  if (spokenAgainst(state, instrument)) throw new Error(`the checks of ${instrument} were not named as a need`);
  return [];
}

/** The checks next to a reading: the last until then and the first since, with all that were made at the same instant. */
export function checksBeside(checks: readonly Check[], { at }: Pick<Reading, 'at'>): { before: readonly Check[]; after: readonly Check[] } {
  const [until, since] = [checks.filter((c) => c.at <= at), checks.filter((c) => c.at >= at)];
  const last = until.reduce<string | null>((a, c) => (a === null || c.at > a ? c.at : a), null);
  const first = since.reduce<string | null>((a, c) => (a === null || c.at < a ? c.at : a), null);
  return { before: until.filter((c) => c.at === last), after: since.filter((c) => c.at === first) };
}

/**
 * Why a critical or control reading cannot be trusted, as known at an instant, or now; null where it can. It was taken between a good check of its
 * instrument and a failed one, or a failed one and the next good one, or after the instrument was taken out of use; or the thermometer was taken out of use
 * later and nobody checked it again. In order of what happened, whatever came in first. Needs `trustNeeds`.
 */
export function doubtAbout(state: State, reading: ReadWith, at: string | null = null): Doubt | null {
  const { instrument } = reading;
  if (instrument === null || (reading.class !== 'ccp' && reading.class !== 'oprp')) return null;
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((row) => at === null || row.at <= at);
  const { before, after } = checksBeside(then(checksOf(state, instrument)), reading);
  const failed = [...before, ...after].filter((c) => !c.passed).sort(byTime)[0];
  if (failed) return failedCheck(state, instrument, failed);
  const outs = then(state.find('instrumentOut', 'instrument', instrument)).sort(byTime);
  const out = outs.find((o) => o.at <= reading.at || !checkedSince(reading, after));
  return out ? { id: out.id, why: 'out-of-use', instrument, name: null, at: out.at } : null;
}

const checkedSince = ({ unit }: ReadWith, after: readonly Check[]): boolean =>
  after.length > 0 || unit === null || dimensionOf(unit) !== 'temperature';

/** Whether a reading that can be trusted now could not be any more if its instrument went out of use unchecked. Needs `trustNeeds` and all its checks. */
export function doubtfulIfOut(state: State, reading: ReadWith): boolean {
  const { instrument } = reading;
  if (instrument === null || (reading.class !== 'ccp' && reading.class !== 'oprp') || doubtAbout(state, reading) !== null) return false;
  return !checkedSince(reading, checksBeside(checksOf(state, instrument), reading).after);
}

/** The instants from the last of which on what is known of the trust in a reading does not change any more by what is on record. Needs `trustNeeds`. */
export function trustKnownBy(state: State, reading: Reading): string[] {
  const { instrument } = reading;
  if (instrument === null || (reading.class !== 'ccp' && reading.class !== 'oprp')) return [];
  const checks = checksOf(state, instrument);
  const outs = state.find('instrumentOut', 'instrument', instrument).map((o) => o.at);
  return [...outs, ...[reading.at, ...outs].flatMap((at) => checksBeside(checks, { at }).after.map((c) => c.at))];
}

function failedCheck(state: State, instrument: string, check: Check): Doubt {
  const id = derivedId(check.id, 'deviation');
  const name = state.find('deviation', 'subject', instrument).find((d) => d.id === id)?.summary ?? null;
  return { id, why: 'failed-check', instrument, name, at: check.at };
}

/** The readings about a subject, each with the verdict that it still stands for: one that cannot be trusted is *unsure*, whatever it said. */
export const readingsThatCount = (state: State, subject: string): Reading[] =>
  state.find('reading', 'subject', subject).map((r) => (settles(r) && doubtAbout(state, r) !== null ? { ...r, verdict: 'unsure' } : r));

const settles = (r: Reading): boolean => r.verdict === 'within' || r.verdict === 'outside';

/**
 * The last reading of each critical point about a subject that settles nothing, where the plan says that a value outside or a miss holds: too close to call,
 * not plausible, or within by an instrument that cannot be trusted. A later one that is clear answers it. What is outside speaks for itself. Needs
 * `countingNeeds`.
 */
export function unsettledAt(state: State, subject: string, at: string | null = null): Unsettled[] {
  const readings = state.find('reading', 'subject', subject).filter((r) => r.class === 'ccp' && (at === null || r.at <= at));
  const keys = [...new Set(readings.flatMap((r) => r.pointKey ?? []))].sort();
  return keys.flatMap((key): Unsettled[] => {
    const of = readings.filter((r) => r.pointKey === key);
    const last = latest(of.filter((r) => r.verdict !== 'not-believable')) ?? latest(of);
    if (!last || last.verdict === 'outside' || !mayHold(state, last.point)) return [];
    if (last.verdict !== 'within') return [{ reading: last, doubt: null }];
    const doubt = doubtAbout(state, last, at);
    return doubt ? [{ reading: last, doubt }] : [];
  });
}

/** Whether the plan lets this point hold food. One that is not to be found does, to be on the safe side. */
function mayHold(state: State, point: string | null): boolean {
  const content = point === null ? undefined : state.get('controlPoint', point)?.content;
  return content === undefined || content.ifOutside === 'hold' || content.ifNotMonitored === 'hold';
}
