import type { TraceView } from '@bakehouse/contracts';
import { localDay } from '@bakehouse/kernel';
import { phrase, type BalanceCause, type BalanceFinding, type Measure, type PhraseKey } from '@bakehouse/records';
import { dayText, mass, wallTime, whole } from '../format';

/** A day and a time as they are said: Wed 25 Nov 08:00. */
export const dayTime = (at: string, zone: string): string => `${dayText(localDay(at, zone))} ${wallTime(at, zone)}`;

export const amountText = (amount: number | null, measure: Measure): string =>
  amount === null
    ? 'amount not known'
    : measure === 'mg'
      ? mass(amount)
      : `${whole(amount)} ${Math.abs(amount) === 1 ? 'piece' : 'pieces'}`;

export const ofLot = ({ pieces, mg }: { readonly pieces: number | null; readonly mg: number | null }): string =>
  pieces !== null ? amountText(pieces, 'pieces') : amountText(mg, 'mg');

type Lot = TraceView['lots'][number];

/** How much of the suspect is in a lot. Where it cannot be said, it says so: nothing is in scope by its share. */
export function heldText({ heldMinMg, heldMaxMg, by }: Lot): string {
  if (by?.type === 'contact' || heldMaxMg === 0) return 'traces at most';
  if (heldMinMg === null || heldMaxMg === null) return 'share not known';
  if (heldMinMg === heldMaxMg || Math.abs(heldMaxMg - heldMinMg) < 100) return mass(Math.round(heldMaxMg / 100) * 100);
  return `${mass(Math.floor(heldMinMg / 100) * 100)} to ${mass(Math.ceil(heldMaxMg / 100) * 100)}`;
}

/** How it got there, from which lot. */
export function throughText(lot: Lot, names: ReadonlyMap<string, string>): string {
  if (!lot.by) return 'this is the lot asked for';
  const from = names.get(lot.by.from) ?? 'another lot';
  if (lot.by.type === 'contact') return `made in the same bowl or with the same scales as ${from}, before the next clean-down`;
  if (lot.by.type === 'identified') return `is ${from}, identified later`;
  if (lot.by.type === 'perhaps') return `nobody knows which lot this was: it may have been ${from}`;
  return `${from}: ${phrase(`flow.${lot.by.type}` as PhraseKey)}`; // every type of flow has words
}

export const causeWords: Readonly<Record<BalanceCause, string>> = {
  'not-known': 'amounts that nobody wrote down',
  estimated: 'estimated amounts',
  'by-recipe': 'amounts taken from the recipe, not weighed',
  label: 'amounts as the label says, not weighed',
  weighed: 'small amounts weighed many times',
  counted: 'counting',
};

export const findingWords: Readonly<Record<BalanceFinding, string>> = {
  none: 'everything is accounted for',
  'not-all-accounted': 'some of it is unaccounted for',
  'more-than-there-was': 'more is accounted for than there ever was',
  'nobody-counted': 'nobody has counted what is left',
  'unknown-amounts': 'some amounts are not known',
};
