import { amountFigure, canonical, canonicalInteger, decided, derivedId, id, refuse, temperature } from '@bakehouse/kernel';
import { airPressure, altitudeRange, boilingPoint, referenceBasis, usualProbeTolerance } from '@bakehouse/sums';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { checkWay } from '../rows/sites.js';

const surroundings = z.strictObject({
  /** Of the air at the place itself, not reduced to sea level. */
  pressurePascal: z.int().min(airPressure.min).max(airPressure.max).nullable(),
  /** The weather moves the boiling point by up to about 1 °C: pressure is better. */
  altitudeMetres: z.int().min(altitudeRange.min).max(altitudeRange.max).nullable(),
});

/**
 * A thermometer was checked in melting ice or boiling water. What it should have shown in boiling water follows from the air pressure
 * (IAPWS-IF97), or from the height where that is all that is known. One that fails opens a deviation and edits no verdict that it led to.
 * A correction is judged with the tolerance of what it replaces; a deviation, once opened, is closed by decision only.
 */
export const instrumentChecked = defineKind({
  name: 'instrument-checked',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A thermometer was checked',
  official: 'Thermometer check',
  words: ['note'],
  payload: z
    .strictObject({
      instrument: id,
      way: checkWay,
      shown: temperature,
      at: surroundings,
      /** How far off it may be, as a difference in °C; null for the usual one of regulators' guidance, 1 °C. */
      tolerance: amountFigure.nullable(),
    })
    .refine((p) => p.way === 'ice' || p.at.pressurePascal !== null || p.at.altitudeMetres !== null, {
      message: 'for boiling water the air pressure at the place, or its height; or check in ice, which needs neither',
      path: ['at', 'pressurePascal'],
    }),
  outcome: z.strictObject({
    name: z.string(),
    milli: canonicalInteger,
    referenceMilli: canonicalInteger,
    toleranceMilli: canonicalInteger,
    assumed: referenceBasis,
    passed: z.boolean(),
  }),
  examples: [
    {
      instrument: '0190a6d0-7b3c-7000-8000-000000000131',
      way: 'ice',
      shown: { figure: '0.3', unit: 'degC' },
      at: { pressurePascal: null, altitudeMetres: null },
      tolerance: null,
    },
    {
      instrument: '0190a6d0-7b3c-7000-8000-000000000131',
      way: 'boiling',
      shown: { figure: '98.6', unit: 'degC' },
      at: { pressurePascal: 97_500, altitudeMetres: null },
      tolerance: '1',
    },
  ],
  needs: (p) => [{ in: 'instrument', id: p.instrument }],
  decide({ payload: p }, state, { previous }) {
    const instrument = state.get('instrument', p.instrument);
    if (!instrument) return refuse('unknown-instrument', 'payload.instrument');
    if (instrument.unit !== 'degC') return refuse('unacceptable-value', 'payload.instrument', 'a thermometer');
    const tolerance = new Decimal(p.tolerance ?? usualProbeTolerance);
    if (tolerance.lt('0.01') || tolerance.gt(5)) return refuse('unacceptable-value', 'payload.tolerance', '0.01 to 5 °C');
    const toleranceMilli = previous?.outcome.toleranceMilli ?? tolerance.times(1000).floor().toNumber();
    const boiling = p.way === 'ice' ? null : boilingPoint(p.at.pressurePascal ?? undefined, p.at.altitudeMetres ?? undefined);
    const referenceMilli = Math.round((boiling?.boilingCelsius ?? 0) * 1000);
    const milli = canonical(p.shown.figure, p.shown.unit);
    const assumed: z.infer<typeof referenceBasis> = boiling?.assumed ?? 'melting-ice';
    return decided({
      name: instrument.name,
      milli,
      referenceMilli,
      toleranceMilli,
      assumed,
      passed: Math.abs(milli - referenceMilli) <= toleranceMilli,
    });
  },
  rows({ payload: p, root, at, doneBy }, o, stamp): Change[] {
    const check: Change = {
      in: 'instrumentCheck',
      id: root,
      row: {
        instrument: p.instrument,
        at,
        way: p.way,
        milli: o.milli,
        referenceMilli: o.referenceMilli,
        toleranceMilli: o.toleranceMilli,
        passed: o.passed,
      },
    };
    return o.passed
      ? [check]
      : [
          check,
          {
            in: 'deviation',
            id: derivedId(root, 'deviation'),
            row: {
              subjectType: 'instrument',
              subject: p.instrument,
              type: 'deviation-reported',
              class: 'ccp',
              summary: o.name,
              holds: false,
              point: null,
              lot: null,
              doneBy: doneBy ?? stamp.person,
              at,
            },
          },
        ];
  },
});
