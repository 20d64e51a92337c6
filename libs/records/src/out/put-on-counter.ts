import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { counterWay } from '../rows/out.js';

/** A batch goes on the counter or comes off it: between the two it was sold there, to people nobody can name. */
export const putOnCounter = defineKind({
  name: 'put-on-counter',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Goods were put on or taken off the counter',
  official: 'Display at the counter',
  words: ['note'],
  payload: z.strictObject({ lot: id, way: counterWay, pieces: z.int().nonnegative().max(1_000_000).nullable() }),
  outcome: z.strictObject({ name: z.string() }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', way: 'on', pieces: 48 }],
  needs: (p) => [{ in: 'lot', id: p.lot }],
  decide({ payload }, state) {
    const lot = state.get('lot', payload.lot);
    return lot ? decided({ name: lot.name }) : refuse('unknown-lot', 'payload.lot');
  },
  rows: ({ payload, root, at }) => [{ in: 'onCounter', id: root, row: { lot: payload.lot, way: payload.way, pieces: payload.pieces, at } }],
});
