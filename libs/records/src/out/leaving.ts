import { derivedId, id } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Change, Need, State } from '../base/state.js';
import { withinAccepted } from '../standing/accepted-part.js';
import type { LeavingNow } from '../standing/leaving-now.js';
import { lotNeeds, troubleNeeds, troubleWith } from '../standing/lot-trouble.js';
import { releasedNeeds, unreleased } from '../standing/released.js';
import type { Reaching } from '../standing/standings.js';

/** Why a lot should not have been sent out or offered for sale. */
export const leavingTrouble = z.enum(['held-lot-used', 'refused-lot-used', 'expired-lot-used', 'past-life-used', 'not-released']);
export type LeavingTrouble = z.infer<typeof leavingTrouble>;

/** What has to be looked for before `troublesLeaving` can be asked: first round, then the rest until it names nothing new. */
export const leavingNeeds = (lot: string): Need[] => [...lotNeeds(lot), ...releasedNeeds(lot)];
export const moreLeavingNeeds = (state: State, lots: readonly string[]): Need[] => troubleNeeds(state, lots);

/** How much leaves, when, and in which time zone. Of what goes as one of several lots nobody knows how much is of each: none. */
interface WhatLeaves extends LeavingNow {
  readonly at: string;
  readonly zone: string;
}

/**
 * Why a lot should not leave or be offered for sale at an instant: what speaks against using it, and that a batch was not released by then. Both where it is
 * both: what was held ends when the hold does, and it was never released all the same. That some of it left unreleased before is not told twice. A part that somebody
 * accepted for use may leave.
 */
export function troublesLeaving(state: State, lot: string, { at, zone, ...leaving }: WhatLeaves): LeavingTrouble[] {
  const leftBefore = new Set(state.find('deviation', 'subject', lot).flatMap((d) => (d.type === 'not-released' ? [d.id] : [])));
  const notReleased = unreleased(state, lot, at);
  const saysTheSame = ({ concern: { id, type, lot: from } }: Reaching): boolean =>
    leftBefore.has(id) || (notReleased && type === 'not-read' && from === lot);
  const counts = (r: Reaching): boolean => !saysTheSame(r) && !withinAccepted(state, lot, r.concern.id, leaving, at);
  const trouble = troubleWith(state, lot, at, zone, counts);
  return [trouble ?? [], notReleased ? ('not-released' as const) : []].flat();
}

interface Leaving {
  readonly lot: string;
  readonly name: string;
  readonly trouble: LeavingTrouble;
  readonly at: string;
  readonly doneBy: string;
}

/** The deviation about a lot that left, or was offered for sale, all the same. Nothing else holds what is left of one that was not released or is past its use-by date. */
export const leavingDeviation = (root: string, key: string, { lot, name, trouble, at, doneBy }: Leaving): Change => ({
  in: 'deviation',
  id: derivedId(root, trouble === 'not-released' ? key : `${key} ${trouble}`),
  row: {
    subjectType: 'lot',
    subject: lot,
    type: trouble,
    class: 'ccp',
    point: null,
    lot: null,
    summary: name,
    holds: trouble === 'not-released' || trouble === 'expired-lot-used',
    at,
    doneBy,
  },
});

/** A lot that left and should not have. */
export const troubledLot = z.strictObject({ lot: id, trouble: leavingTrouble });
