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

/**
 * Whether so much of a lot may leave in spite of a concern: as much of it was accepted for use, signed, under what the concern stands for, and has not left since. What
 * left by a decision was another part; who signed keeps the parts apart.
 */
export function withinAccepted(state: State, lot: string, concern: Concern, leaving: LeavingNow, at: string): boolean {
  const unit = measureOf(state.get('lot', lot));
  const amount = leaving[unit];
  const accepted = partsOf(state, lot).filter((d) => d.at <= at && endedBy(state, d, subjectsAt(state, lot)).includes(concern.id));
  const since = accepted.map((d) => d.at).sort()[0];
  if (amount === null || since === undefined || accepted.some((d) => d[unit] === null)) return false;
  const left = state.find('departure', 'lot', lot).filter((d) => d.at >= since && d.at <= at && d.trip !== leaving.root && usesIt(d));
  if (left.some((d) => d[unit] === null)) return false;
  const sum = (of: readonly { readonly pieces: number | null; readonly mg: number | null }[]): number =>
    of.reduce((total, one) => total + (one[unit] ?? 0), 0);
  return amount + sum(left) <= sum(accepted);
}
