import { decided, how, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { putInNeeds, putInOutcome, putInRows, putInThen, readPutIn } from './put-in.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { weighedType } from '../rows/stock.js';

const line = z.strictObject({
  material: id,
  /** The lot that was open; null where nobody can say: a placeholder stands for it until somebody can. */
  lot: id.nullable(),
  quantity: observed.nullable(),
  how,
  type: weighedType,
});

/** What went into a make, by lot. A held, refused or out-of-date lot that was used is recorded all the same and opens a deviation. */
export const weighedIn = defineKind({
  name: 'weighed-in',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Ingredients were weighed in',
  official: 'Ingredients used, by lot',
  words: ['note'],
  payload: z.strictObject({ make: id, lines: z.array(line).min(1).max(60) }),
  outcome: z.strictObject({ lines: z.array(putInOutcome) }),
  examples: [
    {
      make: '0190a6d0-7b3c-7000-8000-0000000000e1',
      lines: [
        {
          material: '0190a6d0-7b3c-7000-8000-0000000000c1',
          lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
          quantity: { figure: '16.4', unit: 'kg' },
          how: 'estimated',
          type: 'ingredient',
        },
      ],
    },
  ],
  needs: (p) => [{ in: 'make', id: p.make }, ...putInNeeds(p.lines)],
  then: (p, state) => putInThen(p.lines, state),
  decide({ payload: p, root, at }, state, { stamp, previous }) {
    if (!state.get('make', p.make)) return refuse('unknown-make', 'payload.make');
    const lines = readPutIn(p.lines, state, { root, at, zone: stamp.zone }, previous?.outcome.lines ?? []);
    return lines.ok ? decided({ lines: lines.value }) : lines;
  },
  rows: ({ payload: p, root, at, doneBy }, o, stamp): Change[] =>
    putInRows(p.lines, o.lines, {
      root,
      at,
      doneBy: doneBy ?? stamp.person,
      target: p.make,
      targetType: 'make',
      sortOf: (i) => p.lines[i]?.type ?? 'ingredient',
    }),
});
