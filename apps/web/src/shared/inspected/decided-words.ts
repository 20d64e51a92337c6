import type { InspectedDeviation } from '@bakehouse/contracts';
import { countText, permissionsOf, role } from '@bakehouse/kernel';
import { findingText, phrase, type PhraseKey } from '@bakehouse/records';
import { dayTime, ofLot } from '../trace/words';
import { whenAndWhoText } from './when-and-who';

type Disposition = InspectedDeviation['disposition'][number];
type Closed = NonNullable<InspectedDeviation['closed']>;

/** So much of it, or all of it where no amount was said. */
export const amountDecided = (of: { readonly pieces: number | null; readonly mg: number | null }): string =>
  of.pieces === null && of.mg === null ? 'all of it' : ofLot(of);

/** What was decided about the food: of which lot, how much of it, what else it was about, and the reason that was given. */
export const dispositionText = (b: Disposition): string =>
  [
    phrase(`disposition.${b.disposition}` as PhraseKey),
    ...(b.covers === 'what-came-of-it' ? [phrase(`covers.${b.covers}`)] : []),
    ...(b.of === null ? [] : [b.of]),
    `${amountDecided(b)}${b.also.map((f) => `; also about: ${findingText(f)}`).join('')}${b.note === null ? '' : `: “${b.note}”`}`,
  ].join(', ');

/** When it was decided, and who signed it. */
export const signedText = (of: Parameters<typeof whenAndWhoText>[0] & { readonly signedBy: string | null }, zone: string): string =>
  of.signedBy === null ? whenAndWhoText(of, zone) : `${whenAndWhoText({ ...of, doneBy: null }, zone)}, signed by ${of.signedBy}`;

/** When a deviation was closed, by whom, what was found in the review, and what stayed on hold and why. */
export function closedText({ at, by, selfReview, review, stayedOnHold, whyOnHold }: Closed, zone: string): string {
  const who = `${by === null ? '' : ` by ${by}`}${selfReview ? ', who also did it' : ''}`;
  const stayed = stayedOnHold === 0 ? '' : `. ${countText(stayedOnHold, 'lot')} stayed on hold undecided`;
  return `${dayTime(at, zone)}${who}${review === null ? '' : `: “${review}”`}${stayed}${stayedOnHold === 0 || whyOnHold === null ? '' : `: “${whyOnHold}”`}`;
}

/** Who has to act next on a deviation that is open, or that was closed with food on hold: those whose roles let them decide about food. */
export function whoDecidesText(isClosed: boolean): string {
  const roles = role.options.filter((r) => permissionsOf[r].includes('decide.exception')).map((r) => phrase(`role.${r}`));
  const who = `Next, somebody with one of these roles: ${roles.join(', ')}.`;
  return `${who} ${isClosed ? 'They decide on the food that stayed on hold, signed with their PIN.' : 'They decide on the food and close the deviation, signed with their PIN.'}`;
}
