import { canonicalInteger, decided, derivedId, how, id, observed, refuse, moreThanNothing } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';

const line = z.strictObject({
  lot: id,
  /** Where it stood before, where somebody says. */
  from: id.nullable(),
  /** How much of it was moved; null for all that there was. */
  quantity: observed.nullable(),
  how,
});
const lineOutcome = z.strictObject({ name: z.string(), mg: canonicalInteger.nullable(), pieces: z.int().nullable() });

/** Lots were carried from one place of the site to another: into the chiller, out of the freezer, to the shop. No amount changes and no trace grows or shrinks. */
export const lotsMoved = defineKind({
  name: 'lots-moved',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Goods were moved',
  official: 'Goods moved within the site',
  words: ['note'],
  payload: z.strictObject({ to: id, lines: z.array(line).min(1).max(50) }),
  outcome: z.strictObject({ toName: z.string(), lines: z.array(lineOutcome) }),
  examples: [
    {
      to: '0190a6d0-7b3c-7000-8000-000000000201',
      lines: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', from: null, quantity: { figure: '24', unit: 'piece' }, how: 'counted' }],
    },
  ],
  needs: (p) => [
    { in: 'place', id: p.to },
    ...p.lines.flatMap((l): Need[] => [{ in: 'lot', id: l.lot }, ...(l.from === null ? [] : [{ in: 'place' as const, id: l.from }])]),
  ],
  then: (p, state) => p.lines.flatMap((l) => quantityNeeds(state, l.quantity, [l.lot])),
  decide({ payload: p, at }, state) {
    const to = state.get('place', p.to);
    if (!to) return refuse('unknown-place', 'payload.to');
    const lines: z.infer<typeof lineOutcome>[] = [];
    for (const [i, l] of p.lines.entries()) {
      const lot = state.get('lot', l.lot);
      if (!lot) return refuse('unknown-lot', `payload.lines.${i}.lot`);
      if (l.from !== null && !state.get('place', l.from)) return refuse('unknown-place', `payload.lines.${i}.from`);
      const amount = moreThanNothing(
        quantityOf(state, l.quantity, { lots: [lot], at }, `payload.lines.${i}.quantity`),
        `payload.lines.${i}.quantity`,
      );
      if (!amount.ok) return amount;
      lines.push({ name: lot.name, ...amount.value });
    }
    return decided({ toName: to.name, lines });
  },
  rows: ({ payload: p, root, at }, o): Change[] =>
    p.lines.map((l, i) => ({
      in: 'moved',
      id: derivedId(root, `${i} ${l.lot}`),
      row: {
        lot: l.lot,
        fromPlace: l.from,
        toPlace: p.to,
        toName: o.toName,
        mg: o.lines[i]?.mg ?? null,
        pieces: o.lines[i]?.pieces ?? null,
        how: l.how,
        at,
      },
    })),
});
