import { decided, id, refuse, timeDoubt, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { counterWay } from '../rows/out.js';
import { leavingDeviation, leavingNeeds, leavingTrouble, moreLeavingNeeds, troublesLeaving } from './leaving.js';

const before = z.strictObject({ name: z.string() });

/**
 * A batch goes on the counter or comes off it: between the two it was sold there, to people nobody can name. A held or unreleased lot that was put there is
 * recorded and opens a deviation, as where it is sent out.
 */
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
  outcome: before.extend({ troubles: z.array(leavingTrouble) }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(before, (same) => ({ ...same, troubles: [] })) },
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', way: 'on', pieces: 48 }],
  needs: (p) => leavingNeeds(p.lot),
  then: (p, state) => moreLeavingNeeds(state, [p.lot]),
  decide({ payload: p, root, at }, state, { stamp }) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    const leaving = { root, site: stamp.book, way: 'shown' as const, pieces: p.pieces, mg: null, at, zone: stamp.zone };
    return decided({ name: lot.name, troubles: p.way === 'on' ? troublesLeaving(state, p.lot, leaving) : [] });
  },
  rows: ({ payload: { lot, way, pieces }, root, at, until, precision, doneBy }, { name, troubles }, { book: site, person }): Change[] => [
    { in: 'onCounter', id: root, row: { lot, way, pieces, site, at, earliest: timeDoubt({ at, until, precision }).earliest } },
    ...troubles.map((trouble) => leavingDeviation(root, 'deviation', { lot, name, trouble, at, doneBy: doneBy ?? person })),
  ],
});
