import { decided, derivedId, id, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { hazard, maxLots } from '../rows/recalls.js';

const perTrillion = z.int().min(0).max(1_000_000_000_000);
const reachedLot = z.strictObject({
  lot: id,
  certain: z.boolean(),
  /** At least and at most this share of it is the suspect, in parts per 10¹²; null where no share can be said. */
  minPpt: perTrillion.nullable(),
  maxPpt: perTrillion.nullable(),
});
const scopeLot = reachedLot.extend({
  /** A suspect, or reached by what it touched: the case holds it and what comes of it. What came with the food is found by following. */
  begins: z.boolean(),
});

const opened = {
  suspect: z.array(id).min(1).max(50),
  hazard,
  hazardName: z.string().trim().min(1).max(120),
  practice: z.boolean(),
  frozenAt: z.array(z.strictObject({ book: id, size: z.int().nonnegative() })).max(200),
  scopeHash: z.string().regex(/^[0-9a-f]{64}$/),
};
/** Version 1 said of each lot whether it was in the house and held at once; what a case holds is now found by following. */
const holdingEach = z.strictObject({ ...opened, scope: z.array(reachedLot.extend({ holdIt: z.boolean() })).max(20_000) });

/**
 * A case is opened: the scope as the trace found it at these sizes of the books is frozen. From now on the case holds what it was opened on and all that
 * comes of it, as it is recorded, until each lot is decided on. A practice freezes a scope just the same and holds nothing.
 */
export const recallOpened = defineKind({
  name: 'recall-opened',
  version: 2,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'decide.recall',
  phrase: 'A recall case was opened',
  official: 'Recall case opened',
  words: ['note', 'caller'],
  payload: z.strictObject({ ...opened, scope: z.array(scopeLot).max(maxLots) }),
  upcast: {
    1: upcaster(holdingEach, ({ scope, ...same }) => ({
      ...same,
      scope: scope.map(({ holdIt: _holdIt, ...lot }) => ({ ...lot, begins: same.suspect.includes(lot.lot) })),
    })),
  },
  outcome: z.strictObject({ lots: z.int() }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject({ lots: z.int(), held: z.int() }), ({ lots }) => ({ lots })) },
  examples: [
    {
      suspect: ['0190a6d0-7b3c-7000-8000-0000000000b1'],
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice: true,
      frozenAt: [{ book: '0190a6d0-7b3c-7000-8000-000000000001', size: 120 }],
      scopeHash: 'ab'.repeat(32),
      scope: [
        { lot: '0190a6d0-7b3c-7000-8000-0000000000b1', certain: true, minPpt: 1_000_000_000_000, maxPpt: 1_000_000_000_000, begins: true },
      ],
    },
  ],
  books: (p) => p.frozenAt.map(({ book }, i) => ({ id: book, field: `payload.frozenAt.${i}.book`, type: 'any' })),
  needs: (p) => [...p.suspect, ...p.scope.map((s) => s.lot)].map((lot) => ({ in: 'lot', id: lot })),
  decide({ payload: p }, state) {
    const unknown = p.suspect.findIndex((lot) => !state.get('lot', lot));
    if (unknown >= 0) return refuse('unknown-lot', `payload.suspect.${unknown}`);
    const stray = p.scope.findIndex((s) => !state.get('lot', s.lot));
    if (stray >= 0) return refuse('unknown-lot', `payload.scope.${stray}.lot`);
    return decided({ lots: p.scope.length });
  },
  rows: ({ payload: p, root, at, word }): Change[] => [
    {
      in: 'recallCase',
      id: root,
      row: {
        suspect: p.suspect,
        hazard: p.hazard,
        hazardName: p.hazardName,
        practice: p.practice,
        supplierSaid: word('note'),
        frozenAt: p.frozenAt,
        scopeHash: p.scopeHash,
        at,
      },
    },
    ...p.scope.map((lot): Change => ({ in: 'recallScopeLot', id: derivedId(root, `scope ${lot.lot}`), row: { recall: root, ...lot } })),
  ],
});
