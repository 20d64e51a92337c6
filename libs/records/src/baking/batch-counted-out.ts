import { calendarDay as day, canonicalInteger, code, decided, derivedId, id, localDay, refuse, timeDoubt } from '@bakehouse/kernel';
import * as z from 'zod';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { datedTooFar, proposedDates, tooFar } from './batch-code.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { ownLot, thrownAway } from '../makes/own-rows.js';

const pieces = z.int().nonnegative().max(100_000);

/**
 * The good pieces of a run were counted out, coded and dated: the unit that is released, sent out and recalled. The device proposes code and dates.
 * A date further off than the formula allows is recorded all the same and opens a deviation; a use-by date that is too late holds the batch.
 */
export const batchCountedOut = defineKind({
  name: 'batch-counted-out',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A batch was counted out',
  official: 'Batch counted and dated',
  words: ['note'],
  payload: z.strictObject({
    run: id,
    /** The loads that it was baked in. */
    loads: z.array(id).max(40),
    pieces,
    rejects: pieces,
    code,
    bakedOn: day,
    bestBefore: day.nullable(),
    useBy: day.nullable(),
  }),
  outcome: z.strictObject({
    make: id,
    formula: id,
    plan: id.nullable(),
    steps: z.array(z.string()),
    product: id,
    name: z.string(),
    specification: id.nullable(),
    scalingMg: canonicalInteger,
    /** The loads that counted when it was recorded; `loadsOfBatch` says which do now. */
    loads: z.array(id),
    tooFar,
  }),
  examples: [
    {
      run: '0190a6d0-7b3c-7000-8000-0000000000e2',
      loads: ['0190a6d0-7b3c-7000-8000-0000000000f1'],
      pieces: 20,
      rejects: 0,
      code: '6329-KTR',
      bakedOn: '2026-11-25',
      bestBefore: '2026-11-28',
      useBy: null,
    },
  ],
  needs: (p) => [
    { in: 'run', id: p.run },
    { in: 'lot', id: p.run },
    ...loadsNeeds(p),
    ...p.loads.map((l): Need => ({ in: 'load', id: l })),
  ],
  then(p, state): Need[] {
    const run = state.get('run', p.run);
    return run ? [{ in: 'make', id: run.make }] : [];
  },
  decide({ payload: p }, state) {
    const run = state.get('run', p.run);
    const make = run && state.get('make', run.make);
    if (!run || !make) return refuse('unknown-run', 'payload.run');
    const unknown = p.loads.findIndex((l) => !state.get('load', l));
    if (unknown >= 0) return refuse('unknown-load', `payload.loads.${unknown}`);
    if (p.pieces + p.rejects === 0) return refuse('unacceptable-value', 'payload.pieces', 'one piece or more, good or rejected');
    return decided({
      make: run.make,
      formula: make.formula,
      plan: make.plan,
      steps: run.steps,
      product: run.product,
      name: run.productName,
      specification: state.get('lot', p.run)?.specification ?? null,
      scalingMg: run.scalingMg,
      loads: loadsOfBatch(state, p),
      tooFar: datedTooFar(p, proposedDates(p.bakedOn, run)),
    });
  },
  rows({ payload: p, root, at, until, precision, doneBy }, o, stamp): Change[] {
    return [
      {
        in: 'batch',
        id: root,
        row: {
          run: p.run,
          make: o.make,
          formula: o.formula,
          plan: o.plan,
          steps: o.steps,
          product: o.product,
          productName: o.name,
          code: p.code,
          bakedOn: p.bakedOn,
          bestBefore: p.bestBefore,
          useBy: p.useBy,
          pieces: p.pieces,
          rejects: p.rejects,
          loads: p.loads,
          site: stamp.book,
          at,
          doneBy: doneBy ?? stamp.person,
        },
      },
      ownLot(root, {
        material: o.product,
        specification: o.specification,
        name: o.name,
        type: 'batch',
        code: p.code,
        pieces: p.pieces,
        bestBefore: p.bestBefore,
        useBy: p.useBy,
        at,
      }),
      {
        in: 'flow',
        id: derivedId(root, 'flow'),
        row: {
          source: p.run,
          target: root,
          mg: p.pieces * o.scalingMg,
          pieces: p.pieces,
          how: 'counted',
          type: 'batched',
          certain: true,
          anyOf: null,
          at,
          ...timeDoubt({ at, until, precision }),
          day: localDay(at, stamp.zone),
        },
      },
      ...(p.rejects === 0
        ? []
        : [
            thrownAway(derivedId(root, 'rejects'), {
              lot: p.run,
              trip: root,
              mg: p.rejects * o.scalingMg,
              pieces: p.rejects,
              how: 'counted',
              site: stamp.book,
              at,
              earliest: timeDoubt({ at, until, precision }).earliest,
            }),
          ]),
      ...(o.tooFar === 'no' ? [] : [datedDeviation(root, o.name, o.tooFar, doneBy ?? stamp.person, at)]),
    ];
  },
});

/** Opened by a date that is too far off: a use-by date holds the batch, a best-before date does not. */
const datedDeviation = (batch: string, name: string, tooFar: 'best-before' | 'use-by', doneBy: string, at: string): Change => ({
  in: 'deviation',
  id: derivedId(batch, 'deviation'),
  row: {
    subjectType: 'batch',
    subject: batch,
    type: 'dated-too-far',
    class: tooFar === 'use-by' ? 'ccp' : 'oprp',
    summary: name,
    holds: tooFar === 'use-by',
    point: null,
    lot: null,
    doneBy,
    at,
  },
});
