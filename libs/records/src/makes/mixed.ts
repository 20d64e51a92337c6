import { canonical, canonicalInteger, decided, id, refuse, temperature } from '@bakehouse/kernel';
import * as z from 'zod';
import { frictionCauses, frictionOf } from './friction.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { frictionCause } from '../rows/makes.js';

const minutes = z.int().min(0).max(600).nullable();
const milli = canonicalInteger.nullable();

/**
 * A make was mixed: minutes by speed and the temperatures around it. The friction factor is worked out at once, with what may explain one that is
 * far from what the formula expects. Whether the dough is within its limit is a reading of its own.
 */
export const mixed = defineKind({
  name: 'mixed',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'Mixing was recorded',
  official: 'Mixing',
  words: ['note'],
  payload: z.strictObject({
    make: id,
    minutesSlow: minutes,
    minutesFast: minutes,
    water: temperature.nullable(),
    flour: temperature.nullable(),
    room: temperature.nullable(),
    dough: temperature.nullable(),
  }),
  outcome: z.strictObject({
    water: milli,
    flour: milli,
    room: milli,
    dough: milli,
    friction: milli,
    expected: milli,
    causes: z.array(frictionCause),
  }),
  examples: [
    {
      make: '0190a6d0-7b3c-7000-8000-0000000000e1',
      minutesSlow: 4,
      minutesFast: 9,
      water: { figure: '19', unit: 'degC' },
      flour: { figure: '21', unit: 'degC' },
      room: { figure: '24', unit: 'degC' },
      dough: { figure: '28.5', unit: 'degC' },
    },
  ],
  needs: (p) => [{ in: 'make', id: p.make }],
  then(p, state): Need[] {
    const make = state.get('make', p.make);
    return make ? [{ in: 'formulaVersion', id: make.formulaVersion }] : [];
  },
  decide({ payload: p }, state) {
    const make = state.get('make', p.make);
    if (!make) return refuse('unknown-make', 'payload.make');
    const plan = state.get('formulaVersion', make.formulaVersion)?.content;
    const [water, flour, room, dough] = [milliOf(p.water), milliOf(p.flour), milliOf(p.room), milliOf(p.dough)];
    const friction = frictionOf({ water, flour, room, dough });
    const expected = plan?.frictionCelsius ? canonical(plan.frictionCelsius, 'degC') : null; // a difference: no offset between C degrees and thousandths
    const done = {
      minutesFast: p.minutesFast,
      minutesSlow: p.minutesSlow,
      sizePercent: make.scalePpm === null ? null : Math.round(make.scalePpm / 10_000),
    };
    const causes = frictionCauses(friction, expected, done, {
      minutesFast: plan?.minutesFast ?? null,
      minutesSlow: plan?.minutesSlow ?? null,
    });
    return decided({ water, flour, room, dough, friction, expected, causes });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    {
      in: 'mixed',
      id: root,
      row: {
        make: p.make,
        minutesSlow: p.minutesSlow,
        minutesFast: p.minutesFast,
        waterMilli: o.water,
        flourMilli: o.flour,
        roomMilli: o.room,
        doughMilli: o.dough,
        frictionMilli: o.friction,
        expectedFrictionMilli: o.expected,
        causes: o.causes,
        at,
      },
    },
  ],
});

const milliOf = (t: z.infer<typeof temperature> | null): number | null => (t === null ? null : canonical(t.figure, t.unit));
