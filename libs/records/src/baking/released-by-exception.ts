import { decided, id, missingWord, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './release-findings.js';
import { releaseRows } from './release-rows.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { finding } from '../rows/baking.js';

const outcome = z.strictObject({ rule: z.int(), findings: z.array(finding), subjects: z.array(id) });
const before = z.strictObject({ rule: z.int(), findings: z.array(finding.omit({ saw: true })), subjects: z.array(id) });

/** Somebody who may do so lets a batch go in spite of what is open on it, says why and signs. What is held by a recall case never goes this way. */
export const releasedByException = defineKind({
  name: 'released-by-exception',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I release this batch by exception',
  permission: 'decide.exception',
  phrase: 'A batch was released by exception',
  official: 'Release by signed exception',
  words: ['why'],
  payload: z.strictObject({ batch: id }),
  outcome,
  outcomeVersion: 5,
  /**
   * Before it said which concern is behind a finding, only a deviation was named; of version 2 is what was found that took a lot that nobody knows for none, of version 3 what
   * did not ask for the first load of a day, of version 4 what did not keep the readings and dates that it was signed on.
   */
  upcastOutcome: {
    1: upcaster(
      z.strictObject({ rule: z.int(), findings: z.array(finding.omit({ concern: true, saw: true })), subjects: z.array(id) }),
      ({ findings, ...same }) => ({ ...same, findings: findings.map((f) => ({ ...f, concern: f.deviation })) }),
    ),
    2: upcaster(before, (same) => same),
    3: upcaster(before, (same) => same),
    4: upcaster(before, ({ findings, ...same }) => ({ ...same, findings: findings.map((f) => ({ ...f, saw: null })) })),
  },
  examples: [{ batch: '0190a6d0-7b3c-7000-8000-0000000000f3' }],
  needs: (p) => [{ in: 'batch', id: p.batch }],
  then(p, state) {
    const batch = state.get('batch', p.batch);
    return batch ? releaseNeeds(batch, state) : [];
  },
  decide(entry, state) {
    const batch = state.get('batch', entry.payload.batch);
    if (!batch) return refuse('unknown-batch', 'payload.batch');
    const findings = releaseFindings(batch, state);
    if (findings.some((f) => f.code === 'recall')) return refuse('held-by-recall', 'payload.batch');
    if (findings.some((f) => f.code === 'destroyed')) return refuse('all-destroyed', 'payload.batch');
    return (
      missingWord(entry, 'why', 'why it may go all the same') ??
      decided({ rule: releaseRule, findings, subjects: subjectsOf(batch, state) })
    );
  },
  rows: ({ payload: p, root, at }, o): Change[] =>
    releaseRows(root, { batch: p.batch, way: 'by-exception', rule: o.rule, findings: o.findings, at }, o.subjects),
});
