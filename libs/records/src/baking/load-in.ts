import { calendarDay as day, canonical, decided, derivedId, id, refuse, temperature } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';

const line = z.strictObject({ run: id, pieces: z.int().positive().max(100_000) });

/** Pieces of one or more runs went into an oven together. */
export const loadIn = defineKind({
  name: 'load-in',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A load was put into the oven',
  official: 'Oven load in',
  words: ['note'],
  payload: z.strictObject({
    oven: id,
    deck: id.nullable(),
    plan: id.nullable(),
    bakeDay: day,
    setting: temperature.nullable(),
    minutes: z.int().positive().max(1440).nullable(),
    lines: z.array(line).min(1).max(20),
  }),
  outcome: z.strictObject({ celsius: z.int().nullable(), lines: z.array(z.strictObject({ product: id, name: z.string() })) }),
  examples: [
    {
      oven: '0190a6d0-7b3c-7000-8000-0000000000a3',
      deck: null,
      plan: null,
      bakeDay: '2026-11-25',
      setting: { figure: '225', unit: 'degC' },
      minutes: 30,
      lines: [{ run: '0190a6d0-7b3c-7000-8000-0000000000e2', pieces: 10 }],
    },
  ],
  needs: (p): Need[] => [
    { in: 'place', id: p.oven },
    ...(p.deck === null ? [] : [{ in: 'place' as const, id: p.deck }]),
    ...(p.plan === null ? [] : [{ in: 'planVersion' as const, id: p.plan }]),
    ...p.lines.map((l) => ({ in: 'run' as const, id: l.run })),
  ],
  decide({ payload: p }, state) {
    if (!state.get('place', p.oven)) return refuse('unknown-place', 'payload.oven');
    if (p.deck !== null && !state.get('place', p.deck)) return refuse('unknown-place', 'payload.deck');
    if (p.plan !== null && !state.get('planVersion', p.plan)) return refuse('unknown-point', 'payload.plan');
    const lines: { product: string; name: string }[] = [];
    for (const [i, l] of p.lines.entries()) {
      const run = state.get('run', l.run);
      if (!run) return refuse('unknown-run', `payload.lines.${i}.run`);
      lines.push({ product: run.product, name: run.productName });
    }
    return decided({ celsius: p.setting === null ? null : Math.round(canonical(p.setting.figure, p.setting.unit) / 1000), lines });
  },
  rows: ({ payload: p, root, at, doneBy }, o, stamp): Change[] => [
    {
      in: 'load',
      id: root,
      row: {
        oven: p.oven,
        deck: p.deck,
        plan: p.plan,
        bakeDay: p.bakeDay,
        celsius: o.celsius,
        minutes: p.minutes,
        at,
        doneBy: doneBy ?? stamp.person,
      },
    },
    ...p.lines.flatMap((l, i): Change[] => {
      const of = o.lines[i];
      return of
        ? [
            {
              in: 'loadLine',
              id: derivedId(root, `line ${i}`),
              row: {
                load: root,
                run: l.run,
                product: of.product,
                productName: of.name,
                pieces: l.pieces,
                oven: p.oven,
                bakeDay: p.bakeDay,
                at,
              },
            },
          ]
        : [];
    }),
  ],
});
