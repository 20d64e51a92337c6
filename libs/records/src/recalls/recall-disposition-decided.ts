import { canonicalInteger, decided, id, instant, missingWord, observed, refuse, upcaster, moreThanNothing } from '@bakehouse/kernel';
import * as z from 'zod';
import { amountProblem, leavingRows } from '../control/done-away.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { covers } from '../rows/control.js';
import { recallLotDecision } from '../rows/recalls.js';

const outcome = { name: z.string(), mg: canonicalInteger.nullable(), pieces: z.int().nullable() };

/**
 * What becomes of one lot that a case holds: freed, with the reason, or done away with. Signed, and in that case alone; it may still be decided after the
 * case was closed, since closing frees nothing. What is destroyed, fed to animals or returned leaves the house with the decision. To free covers the lot alone, or what came of it as well.
 */
export const recallDispositionDecided = defineKind({
  name: 'recall-disposition-decided',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I decide what becomes of this lot in this recall case',
  permission: 'decide.recall',
  phrase: 'A lot was decided on in a recall case',
  official: 'Disposition of a lot in a recall case',
  words: ['why'],
  payload: z.strictObject({ recall: id, lot: id, decision: recallLotDecision, covers, quantity: observed.nullable() }),
  outcome: z.strictObject({
    ...outcome,
    /** When the case had been closed, where it had been: what it held stayed on hold, and is decided on all the same. */
    closedAt: instant.nullable(),
  }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject(outcome), (same) => ({ ...same, closedAt: null })) },
  examples: [
    {
      recall: '0190a6d0-7b3c-7000-8000-000000000101',
      lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
      decision: 'freed',
      covers: 'this-alone',
      quantity: null,
    },
  ],
  needs: (p) => [
    { in: 'recallCase', id: p.recall },
    { in: 'lot', id: p.lot },
    { in: 'recallClosed', by: 'recall', value: p.recall },
  ],
  then: (p, state) => quantityNeeds(state, p.quantity, [p.lot]),
  decide(entry, state) {
    const { payload: p } = entry;
    const of = state.get('recallCase', p.recall);
    if (!of) return refuse('unknown-recall', 'payload.recall');
    if (of.practice) return refuse('practice-holds-nothing', 'payload.recall', 'a real case: a practice holds nothing');
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (p.decision === 'freed' && p.quantity !== null)
      return refuse('whole-lot-only', 'payload.quantity', 'none: a lot is freed whole; what is done away with has an amount');
    if (p.decision !== 'freed' && p.covers === 'what-came-of-it')
      return refuse('named-food-alone', 'payload.covers', 'this-alone: what was made of it is decided on by itself');
    const amount = moreThanNothing(quantityOf(state, p.quantity, { lots: [lot], at: entry.at }, 'payload.quantity'), 'payload.quantity');
    if (!amount.ok) return amount;
    const problem = amountProblem(lot, amount.value);
    if (problem) return problem;
    const closedAt = state.find('recallClosed', 'recall', p.recall)[0]?.at ?? null;
    return missingWord(entry, 'why', 'why, in a few words') ?? decided({ name: lot.name, ...amount.value, closedAt });
  },
  rows: ({ payload: p, root, at }, o, { book: site }): Change[] => [
    {
      in: 'recallDecision',
      id: root,
      row: { recall: p.recall, lot: p.lot, decision: p.decision, covers: p.covers, pieces: o.pieces, mg: o.mg, at },
    },
    ...leavingRows(p.decision, [p.lot], { root, at, mg: o.mg, pieces: o.pieces, site, amount: 'amount' }),
  ],
});
