import { decided, derivedId, id, latest, refuse, secondsBetween } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need, State } from '../base/state.js';
import { subjectNeed } from '../control/subjects.js';
import { stageStep, stageWay } from '../rows/makes.js';

const subject = z.strictObject({ type: z.enum(['make', 'run', 'batch', 'load', 'lot']), id });

/**
 * Makes, runs or loads went into a prover, retarder, chiller or freezer, came out, or were folded or rested once. Coming out tells how long it was:
 * elapsed time, right over two dates and over the change of the clocks.
 */
export const stagePassed = defineKind({
  name: 'stage-passed',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A process stage was recorded',
  official: 'Process stage',
  words: ['note'],
  payload: z.strictObject({
    subjects: z.array(subject).min(1).max(30),
    place: id.nullable(),
    step: stageStep,
    way: stageWay,
  }),
  /** Seconds since each went in; null where nobody recorded that. */
  outcome: z.strictObject({ seconds: z.array(z.int().nullable()) }),
  examples: [{ subjects: [{ type: 'make', id: '0190a6d0-7b3c-7000-8000-0000000000e1' }], place: null, step: 'rest', way: 'in' }],
  needs: (p) => [
    ...(p.place === null ? [] : [{ in: 'place' as const, id: p.place }]),
    ...p.subjects.flatMap((s): Need[] => [
      subjectNeed(s.type, s.id),
      ...(p.way === 'out' ? [{ in: 'stage', by: 'subject', value: s.id } satisfies Need] : []),
    ]),
  ],
  decide({ payload: p, at }, state) {
    if (p.place !== null && !state.get('place', p.place)) return refuse('unknown-place', 'payload.place');
    const unknown = p.subjects.findIndex((s) => state.get(s.type, s.id) === undefined);
    if (unknown >= 0) return refuse('unknown-subject', `payload.subjects.${unknown}`);
    if (new Set(p.subjects.map((s) => s.id)).size < p.subjects.length)
      return refuse('unacceptable-value', 'payload.subjects', 'each subject once');
    return decided({ seconds: p.subjects.map((s) => (p.way === 'out' ? secondsIn(state, s.id, p.step, at) : null)) });
  },
  rows: ({ payload: p, root, at }): Change[] =>
    p.subjects.map((s) => ({
      in: 'stage',
      id: derivedId(root, `stage ${s.id}`),
      row: { subject: s.id, place: p.place, step: p.step, way: p.way, at },
    })),
});

function secondsIn(state: State, of: string, step: z.infer<typeof stageStep>, at: string): number | null {
  const into = latest(state.find('stage', 'subject', of).filter((s) => s.step === step && s.way === 'in' && s.at <= at));
  return into ? secondsBetween(into.at, at) : null;
}
