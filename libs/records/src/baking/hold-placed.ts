import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { targetNeeds, use, usedDeviations, usedIn, useNeeds } from '../stock/used-in.js';

/** A lot is set aside: neither used nor sent out until somebody lifts the hold. Off line too: it is the safe way. What it went into already is told so. */
export const holdPlaced = defineKind({
  name: 'hold-placed',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: true,
  signed: null,
  permission: 'decide.goods',
  phrase: 'A lot was put on hold',
  official: 'Lot placed on hold',
  words: ['because'],
  payload: z.strictObject({ lot: id, deviation: id.nullable() }),
  outcome: z.strictObject({ name: z.string(), usedIn: z.array(use) }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', deviation: null }],
  needs: (p) => [
    { in: 'lot', id: p.lot },
    ...useNeeds(p.lot),
    ...(p.deviation === null ? [] : [{ in: 'deviation' as const, id: p.deviation }]),
  ],
  then: (p, state) => targetNeeds(state, p.lot),
  decide({ payload: p }, state, { previous }) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (previous && previous.payload.lot !== p.lot)
      return refuse('unacceptable-value', 'payload.lot', 'the same lot: to hold another lot, lift this hold and place a new one');
    if (p.deviation !== null && !state.get('deviation', p.deviation)) return refuse('unknown-deviation', 'payload.deviation');
    return decided({ name: lot.name, usedIn: usedIn(state, p.lot) });
  },
  rows: ({ payload: p, root, at, word }, o): Change[] => [
    { in: 'hold', id: root, row: { lot: p.lot, because: word('because'), deviation: p.deviation, at } },
    ...usedDeviations(o.usedIn, { root, type: 'held-lot-used', lot: p.lot, name: o.name, at }),
  ],
});
