import { decided, derivedId, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { openAt } from './open-at.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/** A vessel was emptied and cleaned: what is put into it next holds nothing of what was in it. The one record that breaks the chain. */
export const vesselCleanedOut = defineKind({
  name: 'vessel-cleaned-out',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A vessel was emptied and cleaned',
  official: 'Vessel emptied and cleaned',
  words: ['note'],
  payload: z.strictObject({ vessel: id }),
  outcome: z.strictObject({ lots: z.array(id) }),
  examples: [{ vessel: '0190a6d0-7b3c-7000-8000-0000000000a3' }],
  needs: (p) => [
    { in: 'place', id: p.vessel },
    { in: 'inUse', by: 'station', value: p.vessel },
    { in: 'emptied', by: 'station', value: p.vessel },
  ],
  decide({ payload: p, root, at }, state) {
    if (!state.get('place', p.vessel)) return refuse('unknown-place', 'payload.vessel');
    const earlier = state.find('emptied', 'station', p.vessel).filter((e) => e.id !== derivedId(root, `emptied ${e.lot}`));
    return decided({ lots: openAt(state.find('inUse', 'station', p.vessel), earlier, at).map((u) => u.lot) });
  },
  // Where nothing was known to be in it, the entry stands for that: what is told later to have been in it before was gone with it.
  rows: ({ payload: p, root, at }, o): Change[] =>
    (o.lots.length > 0 ? o.lots : [root]).map((lot) => ({
      in: 'emptied',
      id: derivedId(root, `emptied ${lot}`),
      row: { station: p.vessel, lot, at, leftMg: 0 },
    })),
});
