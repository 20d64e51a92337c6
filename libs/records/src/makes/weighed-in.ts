import { decided, how, id, observed, refuse, timeDoubt, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { putInNeeds, putInOutcome, putInRows, putInThen, readPutIn, upcastPutIn } from './put-in.js';
import { linesNeeds, reworkBy, reworkDeviation } from './rework-in.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { weighedType } from '../rows/stock.js';
import { reworkNeeds } from '../standing/rework.js';

const said = {
  material: id,
  /** The lot that was open; null where nobody can say: a placeholder stands for it until somebody can. */
  lot: id.nullable(),
  quantity: observed.nullable(),
  how,
  type: weighedType,
};
const before = z.strictObject({ make: id, lines: z.array(z.strictObject(said)).min(1).max(60) });
const line = z
  .strictObject({
    ...said,
    /** The other lots that were open, where one or more of them were used and nobody knows which. */
    orLots: z.array(id).max(19).optional(),
  })
  .refine(({ lot, orLots = [] }) => orLots.length === 0 || (lot !== null && new Set([lot, ...orLots]).size === orLots.length + 1), {
    message: 'other lots than `lot`, each once, and only beside it',
    path: ['orLots'],
  });

const withoutRework = z.strictObject({ lines: z.array(putInOutcome) });

/** What went into a make, by lot. A held, refused or out-of-date lot that was used is recorded all the same and opens a deviation, and so does rework against the rule of the formula. */
export const weighedIn = defineKind({
  name: 'weighed-in',
  version: 2,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Ingredients were weighed in',
  official: 'Ingredients used, by lot',
  words: ['note'],
  payload: z.strictObject({ make: id, lines: z.array(line).min(1).max(60) }),
  upcast: { 1: upcaster(before, (same) => same) },
  /** Lines: one for each lot that is named, in their order. `rework`: what was against the rule of the formula then, with everything that was in the make; null where nothing was. */
  outcome: withoutRework.extend({ rework: z.string().nullable() }),
  outcomeVersion: 3,
  upcastOutcome: { ...upcastPutIn, 2: upcaster(withoutRework, (same) => ({ ...same, rework: null })) },
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
  then: (p, state, of) => [...putInThen(p.lines, state), ...reworkNeeds(state, p.make), ...linesNeeds(state, p.make, p.lines, of.at)],
  decide({ payload: p, root, at }, state, { stamp, previous }) {
    const make = state.get('make', p.make);
    if (!make) return refuse('unknown-make', 'payload.make');
    const lines = readPutIn(p.lines, state, { root, at, zone: stamp.zone, station: make.station }, previous?.outcome.lines ?? []);
    if (!lines.ok) return lines;
    const before = previous?.outcome.lines.length ?? 0;
    return decided({ lines: lines.value, rework: reworkBy(state, p.make, { root, at, before, lines: p.lines, read: lines.value }) });
  },
  rows: ({ payload: p, root, at, until, precision, doneBy }, o, stamp): Change[] => [
    ...putInRows(p.lines, o.lines, {
      root,
      at,
      doubt: timeDoubt({ at, until, precision }),
      zone: stamp.zone,
      doneBy: doneBy ?? stamp.person,
      target: p.make,
      targetType: 'make',
      sortOf: (line) => p.lines[line]?.type ?? 'ingredient',
    }),
    ...reworkDeviation(o.rework, { root, make: p.make, at, doneBy: doneBy ?? stamp.person }),
  ],
});
