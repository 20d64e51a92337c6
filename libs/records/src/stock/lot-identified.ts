import { code, decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { lotNeeds, troubleNeeds, troubleWith } from '../standing/lot-trouble.js';
import { targetNeeds, use, usedDeviations, usedIn, useNeeds } from './used-in.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { lotTrouble } from '../rows/stock.js';

/**
 * A lot whose code nobody had is named: its code, that it is the same as a lot already known, or both. The link turns from unknown to certain;
 * where the known lot is held, refused or out of date, whatever the unnamed one went into is told so at once.
 */
export const lotIdentified = defineKind({
  name: 'lot-identified',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A lot was identified',
  official: 'Lot identified',
  words: ['note'],
  payload: z
    .strictObject({ lot: id, code: code.nullable(), same: id.nullable(), delivery: id.nullable() })
    .refine((p) => p.code !== null || p.same !== null, { message: 'a code, or the lot that it is', path: ['code'] })
    .refine((p) => p.same !== p.lot, { message: 'another lot', path: ['same'] }),
  outcome: z.strictObject({ name: z.string(), trouble: lotTrouble.nullable(), usedIn: z.array(use) }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', code: 'E7731', same: null, delivery: null }],
  needs: (p) => [
    { in: 'lot', id: p.lot },
    ...useNeeds(p.lot),
    ...(p.same === null ? [] : lotNeeds(p.same)),
    ...(p.delivery === null ? [] : [{ in: 'delivery' as const, id: p.delivery }]),
  ],
  then: (p, state) => [...targetNeeds(state, p.lot), ...(p.same === null ? [] : troubleNeeds(state, [p.same]))],
  decide({ payload: p, at }, state, { stamp }) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (lot.codeState === 'own') return refuse('unacceptable-value', 'payload.lot', 'a lot that was received');
    if (p.same !== null && !state.get('lot', p.same)) return refuse('unknown-lot', 'payload.same');
    if (p.delivery !== null && !state.get('delivery', p.delivery)) return refuse('unknown-delivery', 'payload.delivery');
    const trouble = p.same === null ? null : troubleWith(state, p.same, at, stamp.zone);
    return decided({ name: lot.name, trouble, usedIn: trouble === null ? [] : usedIn(state, p.lot) });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    { in: 'lotIdentified', id: root, row: { lot: p.lot, code: p.code, same: p.same, delivery: p.delivery, at } },
    ...(o.trouble === null ? [] : usedDeviations(root, o.usedIn, o.trouble, o.name, at)),
  ],
});
