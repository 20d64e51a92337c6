import { decided, id, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Finding } from '../rows/baking.js';
import { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './release-findings.js';
import { releaseRows } from './release-rows.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/** What is open, for the sentence that refuses. */
const says: Readonly<Record<Finding['code'], string>> = {
  'no-plan': 'no plan was in force',
  recall: 'held by a recall case',
  held: 'on hold',
  'open-deviation': 'open deviation',
  refused: 'goods that were refused are in it',
  'nothing-weighed-in': 'nothing was weighed in',
  'more-out-than-in': 'more came out than went in',
  'more-baked-than-divided': 'more was baked than divided',
  'not-taken': 'not taken',
  unsettled: 'not settled',
};

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
  outcomeVersion: 2,
  /** The same in both: of version 1 is what the rule found that looked at the batch, its run, its make and its loads alone. */
  upcastOutcome: { 1: upcaster(outcome, (same) => same) },
  examples: [{ batch: '0190a6d0-7b3c-7000-8000-0000000000f3' }],
  needs: (p) => [{ in: 'batch', id: p.batch }],
  then(p, state) {
    const batch = state.get('batch', p.batch);
    return batch ? releaseNeeds(batch, state) : [];
  },
  decide({ payload: p }, state) {
    const batch = state.get('batch', p.batch);
    if (!batch) return refuse('unknown-batch', 'payload.batch');
    const findings = releaseFindings(batch, state);
    const open = findings.map((f) => [says[f.code], f.what].filter((part) => part !== null).join(': ')).join('; ');
    if (findings.length > 0) return refuse('not-releasable', 'payload.batch', `nothing open; there is: ${open}`);
    return decided({ rule: releaseRule, subjects: subjectsOf(batch) });
  },
  rows: ({ payload: p, root, at }, o): Change[] =>
    releaseRows(root, { batch: p.batch, way: 'by-rule', rule: o.rule, findings: [], at }, o.subjects),
});
