import { decided, derivedId, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { maxLots } from '../rows/recalls.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

const lotNow = z.strictObject({ lot: id, certain: z.boolean() });

/** Lots that the trace reached after a case was opened come into its scope: the case holds them and what comes of them. Nothing is ever taken out. */
export const recallScopeExtended = defineKind({
  name: 'recall-scope-extended',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'decide.recall',
  phrase: 'The scope of a recall case was extended',
  official: 'Scope of a recall case extended',
  payload: z.strictObject({ recall: id, lots: z.array(lotNow).min(1).max(maxLots) }),
  outcome: z.strictObject({ lots: z.int() }),
  examples: [{ recall: '0190a6d0-7b3c-7000-8000-000000000101', lots: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', certain: false }] }],
  needs: (p) => [{ in: 'recallCase', id: p.recall }, ...p.lots.map(({ lot }) => ({ in: 'lot' as const, id: lot }))],
  decide({ payload: p }, state) {
    if (!state.get('recallCase', p.recall)) return refuse('unknown-recall', 'payload.recall');
    const unknown = p.lots.findIndex(({ lot }) => !state.get('lot', lot));
    return unknown >= 0 ? refuse('unknown-lot', `payload.lots.${unknown}.lot`) : decided({ lots: p.lots.length });
  },
  rows: ({ payload: p, root }): Change[] =>
    p.lots.map(({ lot, certain }) => ({
      in: 'recallScopeLot',
      id: derivedId(root, `scope ${lot}`),
      row: { recall: p.recall, lot, certain, minPpt: null, maxPpt: null, begins: true },
    })),
});
