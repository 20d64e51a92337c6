import type { HeldLot } from '@bakehouse/contracts';
import type { ConcernType } from '@bakehouse/records';
import type { Sample } from '../../support/every-kind.js';
import { picked } from './there.js';

/** What the office may decide about a lot that its list says is on hold, by one of the things that speak against it. */
export function decisionAbout({ lot, concerns }: HeldLot, random: () => number): Sample | undefined {
  const concern = picked(concerns, random);
  return concern && decisions[concern.type](lot, concern.id, random);
}

type Decision = (lot: string, concern: string, random: () => number) => Sample;
const why = { why: 'looked at' };
const covers = 'this-alone';
const disposed: Decision = (lot, deviation, random) => ({
  kind: 'disposition-decided',
  payload: { deviation, lot, disposition: picked(['accepted-for-use', 'destroyed', 'reworked'], random), covers, quantity: null },
});
/** Refused where it is no batch: what the sums say of anything else is put right in the records. */
const released: Decision = (batch) => ({ kind: 'released-by-exception', payload: { batch }, words: why });
const decisions: Readonly<Record<ConcernType, Decision>> = {
  held: (_lot, hold) => ({ kind: 'hold-lifted', payload: { hold }, words: why }),
  'place-held': (lot, hold) => ({ kind: 'food-at-place-accepted', payload: { hold, lot, covers }, words: why }),
  recall: (lot, recall, random) => ({
    kind: 'recall-disposition-decided',
    payload: { recall, lot, decision: picked(['freed', 'destroyed'], random), covers, quantity: null },
    words: why,
  }),
  'open-deviation': disposed,
  'closed-deviation': disposed,
  'weigh-again': disposed,
  unsettled: disposed,
  'first-load-outside': released,
  'first-load-not-read': released,
  'not-read': released,
  refused: (lot) => ({ kind: 'refused-goods-accepted', payload: { lot, decision: 'accepted', covers }, words: why }),
  'used-past-use-by': released,
  'used-past-life': released,
  'past-life': released,
  withdrawn: (lot) => ({ kind: 'withdrawn-lot-accepted', payload: { lot, covers }, words: why }),
  'nothing-weighed-in': released,
  'more-out-than-in': released,
  'more-baked-than-divided': released,
  'counted-twice': released,
  'code-given-twice': released,
  'more-back-than-sent': released,
  'used-after-clean-out': released,
  'rework-against-rule': released,
  'more-gone-than-there-was': (lot) => ({ kind: 'lot-counted', payload: { lot, place: null, quantity: { figure: '0', unit: 'g' } } }),
};
