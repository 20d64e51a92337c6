import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { allergensNewIn, newAllergens } from '../stock/new-allergens.js';
import { specificationAt } from '../control/specification-at.js';

/**
 * This one make is changed from its formula: less of something, something else instead. A fact of the night and no new version; what is used
 * instead may bring in allergens, which the outcome says.
 */
export const oneOffChanged = defineKind({
  name: 'one-off-changed',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A mix was changed from its formula',
  official: 'Changed from the formula',
  words: ['change'],
  payload: z.strictObject({ make: id, material: id.nullable(), instead: id.nullable() }),
  outcome: z.strictObject({ newAllergens }),
  examples: [{ make: '0190a6d0-7b3c-7000-8000-0000000000e1', material: null, instead: null }],
  needs: (p) => [{ in: 'make', id: p.make }, ...specificationNeeds(p.material), ...specificationNeeds(p.instead)],
  decide(entry, state) {
    const { payload: p, at } = entry;
    if (!state.get('make', p.make)) return refuse('unknown-make', 'payload.make');
    const material = p.material === null ? undefined : specificationAt(state, p.material, at);
    if (p.material !== null && !material) return refuse('unknown-material', 'payload.material');
    const instead = p.instead === null ? undefined : specificationAt(state, p.instead, at);
    if (p.instead !== null && !instead) return refuse('unknown-material', 'payload.instead');
    const missing = p.instead === null ? missingWord(entry, 'change', 'what was changed, in a few words') : undefined;
    return (
      missing ?? decided({ newAllergens: instead ? allergensNewIn(instead, material ? [material] : []) : { contains: [], mayContain: [] } })
    );
  },
  rows: ({ payload: p, root, at, word }): Change[] => [
    { in: 'oneOff', id: root, row: { make: p.make, change: word('change'), material: p.material, instead: p.instead, at } },
  ],
});

const specificationNeeds = (material: string | null): Need[] =>
  material === null ? [] : [{ in: 'specification', by: 'material', value: material }];
