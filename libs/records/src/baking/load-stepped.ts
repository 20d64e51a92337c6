import { decided, id, refuse, secondsBetween } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { loadStepType } from '../rows/baking.js';

/** A load was turned, came out, went back in for some minutes more, or came out again. Back in the oven is an ordinary answer to a low core. */
export const loadStepped = defineKind({
  name: 'load-stepped',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A load was turned, taken out or put back in',
  official: 'Oven load turned, out or returned',
  words: ['note'],
  payload: z.strictObject({ load: id, step: loadStepType, minutes: z.int().positive().max(1440).nullable() }),
  /** Seconds since the load first went in. */
  outcome: z.strictObject({ seconds: z.int() }),
  examples: [{ load: '0190a6d0-7b3c-7000-8000-0000000000f1', step: 'back-in', minutes: 5 }],
  needs: (p) => [{ in: 'load', id: p.load }],
  decide({ payload: p, at }, state) {
    const load = state.get('load', p.load);
    return load ? decided({ seconds: secondsBetween(load.at, at) }) : refuse('unknown-load', 'payload.load');
  },
  rows: ({ payload: p, root, at }): Change[] => [{ in: 'loadStep', id: root, row: { load: p.load, step: p.step, minutes: p.minutes, at } }],
});
