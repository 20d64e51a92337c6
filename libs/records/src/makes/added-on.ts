import { decided, how, id, observed, refuse, timeDoubt } from '@bakehouse/kernel';
import * as z from 'zod';
import { putInNeeds, putInOutcome, putInRows, putInThen, readPutIn, upcastPutIn } from './put-in.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { reportedKnown, reportedNeeds } from '../control/subjects.js';

const line = z.strictObject({ material: id, lot: id.nullable(), quantity: observed.nullable(), how });

export const addedTo = z.enum(['make', 'run', 'batch']);
export type AddedTo = z.infer<typeof addedTo>;
/**
 * What goes onto a product besides its dough: tin oil, dusting flour, wash, seeds, glaze. Seldom weighed and always traced. After the oven nothing makes
 * it safe any more, so that is a flag of its own.
 */
export const addedOn = defineKind({
  name: 'added-on',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A material was applied to a product',
  official: 'Material applied to a product',
  words: ['note'],
  payload: z.strictObject({
    targetType: addedTo,
    target: id,
    afterOven: z.boolean(),
    lines: z.array(line).min(1).max(20),
  }),
  outcome: z.strictObject({ lines: z.array(putInOutcome) }),
  outcomeVersion: 2,
  upcastOutcome: upcastPutIn,
  examples: [
    {
      targetType: 'run',
      target: '0190a6d0-7b3c-7000-8000-0000000000e2',
      afterOven: false,
      lines: [
        {
          material: '0190a6d0-7b3c-7000-8000-0000000000c1',
          lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
          quantity: null,
          how: 'estimated',
        },
      ],
    },
  ],
  needs: (p) => [...reportedNeeds(p.targetType, p.target), ...putInNeeds(p.lines)],
  then: (p, state) => putInThen(p.lines, state),
  decide({ payload: p, root, at }, state, { stamp, previous }) {
    if (!reportedKnown(state, p.targetType, p.target)) return refuse('unknown-subject', 'payload.target');
    const lines = readPutIn(p.lines, state, { root, at, zone: stamp.zone, station: null }, previous?.outcome.lines ?? []);
    return lines.ok ? decided({ lines: lines.value }) : lines;
  },
  rows: ({ payload: p, root, at, until, precision, doneBy }, o, stamp): Change[] =>
    putInRows(p.lines, o.lines, {
      root,
      at,
      doubt: timeDoubt({ at, until, precision }),
      zone: stamp.zone,
      doneBy: doneBy ?? stamp.person,
      target: p.target,
      targetType: p.targetType,
      sortOf: () => (p.afterOven ? 'after-oven' : 'aid'),
    }),
});
