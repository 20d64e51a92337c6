import { letsUse, usesAll } from '../control/holds-release.js';
import type { Need, Row, State } from '../base/state.js';
import { endedBy, subjectsAt, type Concern } from './concern.js';
import { measureOf } from './lot-rows.js';

/** So much of a lot that leaves, by an entry of this root. */
export interface LeavingNow {
  readonly root: string;
  readonly pieces: number | null;
  readonly mg: number | null;
}

/** Decisions that let a part of a lot be used: by them alone nothing else of it may. */
const partsOf = (state: State, lot: string) =>
  subjectsAt(state, lot).flatMap((s) => state.find('disposition', 'subject', s).filter((d) => letsUse(d.disposition) && !usesAll(d)));

/** What has to be looked for before `withinAccepted` can be asked of a lot, once what speaks against it is known. */
export const acceptedNeeds = (state: State, lot: string): Need[] =>
  partsOf(state, lot).length === 0 ? [] : [{ in: 'departure', by: 'lot', value: lot }];

/** What was thrown away or went back was the other part, and what went to a shop of the house has not left it: it is asked again where it is sold. */
const usesIt = ({ channel, decided }: Row<'departure'>): boolean =>
  decided === null && channel !== 'waste' && channel !== 'supplier-return' && channel !== 'own-shop';

/** What was accepted for use of a lot under a concern by an instant, and what has left of that; null where nothing was, or no figure says how much. */
function usedOfAccepted(state: State, lot: string, concern: Concern, at: string, except: string | null) {
  const unit = measureOf(state.get('lot', lot));
  const accepted = partsOf(state, lot).filter((d) => d.at <= at && endedBy(state, d, subjectsAt(state, lot)).includes(concern.id));
  const since = accepted.map((d) => d.at).sort()[0];
  if (since === undefined || accepted.some((d) => d[unit] === null)) return null;
  const left = state.find('departure', 'lot', lot).filter((d) => d.at >= since && d.at <= at && d.trip !== except && usesIt(d));
  if (left.some((d) => d[unit] === null)) return null;
  const sum = (of: readonly { readonly pieces: number | null; readonly mg: number | null }[]): number =>
    of.reduce((total, one) => total + (one[unit] ?? 0), 0);
  return { accepted: sum(accepted), left: sum(left) };
}

/** How many pieces, or how much by weight, were accepted for use of a lot that is kept, and how much of that may still leave. */
export interface AcceptedPart {
  readonly accepted: number;
  readonly mayLeave: number;
}

/** What of a lot may leave in spite of all that speaks against it: the least that any of it leaves. Null where nothing of it was accepted. Needs `acceptedNeeds`. */
export function acceptedPart(state: State, lot: string, concerns: readonly Concern[], at: string): AcceptedPart | null {
  const parts = concerns.map((concern) => usedOfAccepted(state, lot, concern, at, null));
  const some = parts.flatMap((p) => p ?? []);
  if (some.length === 0) return null;
  const least = Math.min(...some.map((p) => Math.max(0, p.accepted - p.left)));
  return { accepted: Math.min(...some.map((p) => p.accepted)), mayLeave: some.length < parts.length ? 0 : least };
}

/**
 * Whether so much of a lot may leave in spite of a concern: as much of it was accepted for use, signed, under what the concern stands for, and has not left since. What
 * left by a decision was another part; who signed keeps the parts apart.
 */
export function withinAccepted(state: State, lot: string, concern: Concern, leaving: LeavingNow, at: string): boolean {
  const amount = leaving[measureOf(state.get('lot', lot))];
  const used = usedOfAccepted(state, lot, concern, at, leaving.root);
  return amount !== null && used !== null && amount + used.left <= used.accepted;
}
