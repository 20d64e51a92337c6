import { dayText, decided, id, localDay, refuse, upcaster, wallTime } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Finding } from '../rows/baking.js';
import { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './release-findings.js';
import { releaseRows } from './release-rows.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { concernsOf, type Reaching } from '../standing/standings.js';

/** What is open, for the sentence that refuses. */
const says: Readonly<Record<Finding['code'], string>> = {
  'no-plan': 'its mix was recorded without a plan, so there are no control points to go by',
  destroyed: 'all of it was destroyed',
  recall: 'held by a recall case',
  held: 'on hold',
  'place-held': 'it was at a place on hold',
  'open-deviation': 'open deviation',
  'closed-deviation': 'held by a deviation that was closed, what is left of the food is still to be decided on',
  refused: 'goods that were refused are in it',
  'used-past-use-by': 'a lot was used past its use-by date',
  'used-past-life': 'a lot was used past its life, which the plan holds',
  'past-life': 'it is past its life, which the plan holds',
  withdrawn: 'the record of a lot in it was withdrawn',
  'weigh-again': 'a reading is to be confirmed',
  unsettled: 'probe again',
  'first-load-outside': 'the first load of the day, which is read for all, was outside its limit',
  'first-load-not-read': 'the first load of the day, which is read for all, was not read',
  'not-read': 'a reading that must be taken was not taken before it was used',
  'nothing-weighed-in': 'nothing was weighed in',
  'more-out-than-in': 'more came out than went in',
  'more-baked-than-divided': 'more was baked than divided',
  'counted-twice': 'the same pieces were counted out twice (take one of the batches back, or correct a count)',
  'code-given-twice': 'another batch has the same code (correct it: a code of its own)',
  'more-gone-than-there-was': 'more was destroyed, used or sent out than there was',
  'more-back-than-sent': 'more came back than was sent there',
  'used-after-clean-out': 'what was in a vessel was used after that was cleaned out, by the records',
  'rework-against-rule': 'rework went in against the rule of the formula',
  'not-taken': 'not taken',
  'lot-not-known': 'which lot was used is not known (name it, or the lots that it was one of, on the line that was recorded)',
};

/** When an instrument failed, for a reading in doubt: somebody looks for what else was read with it. */
function when(f: Finding, reaching: readonly Reaching[], zone: string): string {
  const since = f.code === 'weigh-again' ? reaching.find((r) => r.concern.id === f.concern)?.concern.since : undefined;
  return since === undefined ? '' : `, ${dayText(localDay(since, zone))} ${wallTime(since, zone)}`;
}

const outcome = z.strictObject({ rule: z.int(), subjects: z.array(id) });

/**
 * A batch with nothing open leaves by rule, off line too. It is the rule that is recorded: where the rule finds something, there is nothing to record,
 * and the refusal says what is open. Whatever is corrected afterwards, released stays released.
 */
export const releasedByRule = defineKind({
  name: 'released-by-rule',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A batch was released by rule',
  official: 'Release by rule',
  payload: z.strictObject({ batch: id }),
  outcome,
  outcomeVersion: 4,
  /**
   * The same in all: of version 1 is what the rule found that looked at the batch, its run, its make and its loads alone, of version 2 what it found that took
   * a lot that nobody knows for none, of version 3 what it found that did not ask for the first load of a day where a batch was baked in a later one.
   */
  upcastOutcome: { 1: upcaster(outcome, (same) => same), 2: upcaster(outcome, (same) => same), 3: upcaster(outcome, (same) => same) },
  examples: [{ batch: '0190a6d0-7b3c-7000-8000-0000000000f3' }],
  needs: (p) => [{ in: 'batch', id: p.batch }],
  then(p, state) {
    const batch = state.get('batch', p.batch);
    return batch ? releaseNeeds(batch, state) : [];
  },
  decide({ payload: p }, state, { stamp }) {
    const batch = state.get('batch', p.batch);
    if (!batch) return refuse('unknown-batch', 'payload.batch');
    const reaching = concernsOf(state, [batch.id]).get(batch.id) ?? [];
    const findings = releaseFindings(batch, state, reaching);
    const open = findings.map(
      (f) => `${[says[f.code], f.what].filter((part) => part !== null).join(': ')}${when(f, reaching, stamp.zone)}`,
    );
    if (findings.length > 0) return refuse('not-releasable', 'payload.batch', `nothing open; there is: ${open.join('; ')}`);
    return decided({ rule: releaseRule, subjects: subjectsOf(batch, state) });
  },
  rows: ({ payload: p, root, at }, o): Change[] =>
    releaseRows(root, { batch: p.batch, way: 'by-rule', rule: o.rule, findings: [], at }, o.subjects),
});
