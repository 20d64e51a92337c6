import { derivedId, inOrder, sumOfKnown } from '@bakehouse/kernel';
import { letsUse, usesAll } from '../control/holds-release.js';
import type { Need, Row, State } from '../base/state.js';
import { dispositionsOf, endedBy, subjectsAt, subjectsNeeds } from './concern.js';
import { leftOf, type Measure } from './left-of.js';
import { departuresOf, measureOf, movementNeeds, movementsOf, wentToShop } from './lot-rows.js';
import type { Amount, LeavingNow, LeavingWay } from './leaving-now.js';
import { soldOver } from './places.js';
import { withWhatStands } from './still-standing.js';

type Decision = Row<'disposition'>;

/** Decisions that let a part of a lot be used: by them alone nothing else of it may. */
function partsOf(state: State, lot: string): Decision[] {
  if (!subjectsNeeds(state, lot).every((need) => state.knows(need))) return [];
  return subjectsAt(state, lot)
    .filter((s) => state.knows({ in: 'disposition', by: 'subject', value: s }))
    .flatMap((s) => state.find('disposition', 'subject', s).filter((d) => letsUse(d.disposition) && !usesAll(d)));
}

/** What has to be looked for before anything here can be asked of a lot, once what speaks against it is known. */
export const acceptedNeeds = (state: State, lot: string): Need[] => (partsOf(state, lot).length === 0 ? [] : movementNeeds(state, lot));

const known = (state: State, lot: string): boolean => acceptedNeeds(state, lot).every((need) => state.knows(need));

/** The decisions that accepted a part of a lot under what a concern stands for, as known at an instant, or now. */
function acceptedUnder(state: State, lot: string, concern: string, at: string | null): Decision[] {
  const parts = partsOf(state, lot).filter((d) => at === null || d.at <= at);
  return parts.filter((d) => endedBy(state, d, subjectsAt(state, lot)).includes(concern));
}

/** What left or was used of a lot, one of its departures or flows. `by` names what it is excepted by. */
export interface Taken extends Amount {
  readonly id: string;
  readonly by: string;
  readonly at: string;
  /** What it went into; null for what left. */
  readonly target: string | null;
}
/** What was thrown away or went back was the other part, and what went to a shop of the house has not left it: it is asked again where it is sold. */
export const usesIt = (state: State, d: Row<'departure'>): boolean =>
  d.decided === null && d.channel !== 'waste' && d.channel !== 'supplier-return' && !wentToShop(state, d);

/**
 * In order of what happened. What left by a decision was another part; who signed keeps the parts apart. What went on a counter and did not come off it was sold
 * there, in pieces.
 */
const takenOf = (state: State, lot: string): Taken[] =>
  inOrder([
    ...state.find('departure', 'lot', lot).flatMap((d) => (usesIt(state, d) ? [{ ...d, by: d.trip, target: null }] : [])),
    ...state.find('flow', 'source', lot).flatMap((f) => (f.target === lot ? [] : [{ ...f, by: f.id }])),
    ...soldOver(state.find('onCounter', 'lot', lot), departuresOf(state, lot)).map((s) => ({ ...s, mg: null, by: s.id, target: null })),
  ]);

/** The sum of amounts in one measure; null where one of them is not known in it. */
const sumIn = (unit: Measure, of: readonly Amount[]): number | null => sumOfKnown(of.map((one) => one[unit]));

/** By which way something left that was recorded as sent out. */
export const wayOf = (channel: Row<'departure'>['channel']): LeavingWay => (channel === 'counter' ? 'over-counter' : 'away');

/** What one line of an entry uses of a lot, with the lines before it: each flow is named by its place among so many. */
export const lineNow = (root: string, amounts: readonly Amount[], lines: number): LeavingNow => ({
  root,
  site: null,
  way: 'away',
  pieces: sumIn('pieces', amounts),
  mg: sumIn('mg', amounts),
  flows: new Set(Array.from({ length: lines }, (_, i) => derivedId(root, `flow ${i}`))),
});

const firstOf = (accepted: readonly Decision[]): string => accepted.map((d) => d.at).sort()[0] ?? '';

/** How much of what these decisions accepted was taken: in order of time, no more than had been accepted by then: what went beyond that is told of, and uses up nothing that is accepted later. */
function usedOf(unit: Measure, accepted: readonly Decision[], taken: readonly Taken[]): number | null {
  const since = firstOf(accepted);
  return taken
    .filter((t) => t.at >= since)
    .reduce<number | null>((used, t) => {
      const by = sumIn(
        unit,
        accepted.filter((d) => d.at <= t.at),
      );
      if (used === null || t[unit] === null || by === null) return null;
      return Math.min(by, used + t[unit]);
    }, 0);
}

/** Whether so much is within what was accepted by then, beside all of that which was taken before. */
function fits(unit: Measure, amount: number | null, accepted: readonly Decision[], before: readonly Taken[]): boolean {
  if (amount === null || accepted.length === 0) return false;
  const [all, used] = [sumIn(unit, accepted), usedOf(unit, accepted, before)];
  return all !== null && used !== null && amount + used <= all;
}

/**
 * Whether so much of a lot may leave or be used in spite of a concern: as much of it was accepted for use, signed, under what the concern stands for, and has not been
 * taken since, nor stands on a counter or in a shop of the house for those who come there. Needs `acceptedNeeds`.
 */
export function withinAccepted(state: State, lot: string, concern: string, leaving: LeavingNow, at: string): boolean {
  const accepted = acceptedUnder(state, lot, concern, at);
  if (accepted.length === 0 || !known(state, lot)) return false;
  const { root, flows } = leaving;
  const before = takenOf(state, lot).filter((t) => t.at <= at && t.by !== root && flows?.has(t.id) !== true);
  const unit = measureOf(state.get('lot', lot));
  if (fits(unit, withWhatStands(state, lot, leaving, { at, since: firstOf(accepted) }), accepted, before)) return true;
  // Where nothing is left to decide on, any of it may leave, from wherever it stands.
  const [now, left] = [leaving[unit], leftIn(state, lot, at)];
  return now !== null && left !== null && now <= left && allDecided(state, lot, concern, at);
}

/**
 * What was taken of a lot within what had been accepted, and is not by this decision in the place of the one of the same chain: null where that accepts nothing. What is left of a lot stays
 * on hold, and what had gone is told of. Needs its movements.
 */
export function noLongerAccepted(state: State, lot: string, before: Decision, now: Decision | null): readonly Taken[] {
  const unit = measureOf(state.get('lot', lot));
  const all = takenOf(state, lot);
  const within = (t: Taken, i: number, of: readonly Decision[]): boolean => {
    const accepted = of.filter((d) => d.at <= t.at);
    return accepted.some(usesAll) || fits(unit, t[unit], accepted, all.slice(0, i));
  };
  const beyond = endedBy(state, before, subjectsAt(state, lot)).flatMap((concern) => {
    const others = letting(state, lot, concern).filter((d) => d.id !== before.id);
    const still = now !== null && letsUse(now.disposition) && now.deviation === before.deviation ? [now] : [];
    return all.filter((t, i) => within(t, i, [...others, before]) && !within(t, i, [...others, ...still]));
  });
  return [...new Map(beyond.map((t) => [t.id, t])).values()];
}

/** Every decision that let it be used under a concern, the whole of it or a part. */
const letting = (state: State, lot: string, concern: string): Decision[] =>
  dispositionsOf(state, lot).filter((d) => letsUse(d.disposition) && endedBy(state, d, subjectsAt(state, lot)).includes(concern));

const none: ReadonlySet<string> = new Set();

/**
 * The flows of a lot by which a concern does not travel: what was used of it within the part that was accepted together with what comes of it. What else came of the
 * lot carries it.
 */
export function acceptedFlows(state: State, lot: string, concern: string, at: string | null): ReadonlySet<string> {
  const accepted = acceptedUnder(state, lot, concern, at).filter((d) => d.covers === 'what-came-of-it');
  if (accepted.length === 0 || !known(state, lot)) return none;
  const unit = measureOf(state.get('lot', lot));
  const all = takenOf(state, lot);
  const within = all.filter((t, i) =>
    fits(
      unit,
      t[unit],
      accepted.filter((d) => d.at <= t.at),
      all.slice(0, i),
    ),
  );
  return new Set(within.map((t) => t.id));
}

/** What is left of a lot in the house; null where nobody can say. */
function leftIn(state: State, lot: string, at: string | null): number | null {
  const row = state.get('lot', lot);
  const unit = measureOf(row);
  return leftOf(row?.[unit] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'unknown' }), unit);
}

/** How much of what was accepted under a concern is here still, to be used; null where nobody can say. */
export function acceptedHere(state: State, lot: string, concern: string, at: string | null): number | null {
  const accepted = acceptedUnder(state, lot, concern, at);
  if (accepted.length === 0) return 0;
  if (!known(state, lot)) return null;
  const unit = measureOf(state.get('lot', lot));
  const taken = takenOf(state, lot).filter((t) => at === null || t.at <= at);
  const [all, used] = [sumIn(unit, accepted), usedOf(unit, accepted, taken)];
  return all === null || used === null ? null : Math.max(0, all - used);
}

/**
 * Whether nothing of a lot is left to decide on under a concern: all that is left of it in the house was accepted for use. Then it is on hold for that no longer, and as much as was accepted may leave. Where anything
 * that went has no amount, somebody has still to decide.
 */
export function allDecided(state: State, lot: string, concern: string, at: string | null): boolean {
  if (acceptedUnder(state, lot, concern, at).length === 0 || !known(state, lot)) return false;
  const left = leftIn(state, lot, at);
  const accepted = acceptedHere(state, lot, concern, at);
  return left !== null && left >= 0 && accepted !== null && left <= accepted;
}

/** How many pieces, or how much by weight, were accepted for use of a lot that is kept, and how much of that may still leave. */
export interface AcceptedPart {
  readonly accepted: number;
  readonly mayLeave: number;
}

const nothingYet: LeavingNow = { root: '', site: null, way: 'away', pieces: 0, mg: 0 };

/** How much `withinAccepted` lets leave from where the lot was made, under one concern; nothing where nobody can say. */
function mayStillLeave(state: State, lot: string, concern: string, at: string): number {
  if (allDecided(state, lot, concern, at)) return leftIn(state, lot, at) ?? 0;
  const [here, since] = [acceptedHere(state, lot, concern, at), firstOf(acceptedUnder(state, lot, concern, at))];
  const stands = here === 0 ? 0 : withWhatStands(state, lot, nothingYet, { at, since });
  return here === null || stands === null ? 0 : Math.max(0, here - stands);
}

/** What of a lot may leave in spite of all that speaks against it: the least that any of these concerns lets go. Null where no amount of it was accepted. Needs `acceptedNeeds`. */
export function acceptedPart(state: State, lot: string, concerns: readonly string[], at: string): AcceptedPart | null {
  const unit = measureOf(state.get('lot', lot));
  const parts = concerns.map((concern) => ({
    accepted: sumIn(unit, acceptedUnder(state, lot, concern, at)),
    mayLeave: mayStillLeave(state, lot, concern, at),
  }));
  const some = parts.flatMap(({ accepted }) => (accepted === null || accepted === 0 ? [] : accepted));
  return some.length === 0 ? null : { accepted: Math.min(...some), mayLeave: Math.min(...parts.map((p) => p.mayLeave)) };
}
