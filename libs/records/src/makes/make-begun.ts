import { calendarDay as day, canonicalInteger, decided, id, largest, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { ownLot } from './own-rows.js';
import { defineKind } from '../base/kind.js';
import { formulaType } from '../rows/formula-content.js';

/** A dough, preferment, filling or other make is begun; it takes the plan that its device knew to be in force. */
export const makeBegun = defineKind({
  name: 'make-begun',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A mix was started',
  official: 'Production run begun',
  words: ['note'],
  payload: z.strictObject({
    formulaVersion: id,
    station: id.nullable(),
    plan: id.nullable(),
    bakeDay: day,
    /** What it is scaled to; null where nobody planned an amount. */
    plannedMg: canonicalInteger.positive().max(largest).nullable(),
  }),
  outcome: z.strictObject({ formula: id, name: z.string(), type: formulaType, makes: id, scalePpm: z.int().nullable() }),
  examples: [
    { formulaVersion: '0190a6d0-7b3c-7000-8000-0000000000d1', station: null, plan: null, bakeDay: '2026-11-25', plannedMg: 41_450_000 },
  ],
  needs: (p) => [
    { in: 'formulaVersion', id: p.formulaVersion },
    ...(p.plan === null ? [] : [{ in: 'planVersion' as const, id: p.plan }]),
    ...(p.station === null ? [] : [{ in: 'place' as const, id: p.station }]),
  ],
  decide({ payload: p }, state) {
    const version = state.get('formulaVersion', p.formulaVersion);
    if (!version) return refuse('unknown-formula', 'payload.formulaVersion');
    if (p.plan !== null && !state.get('planVersion', p.plan)) return refuse('unknown-point', 'payload.plan');
    if (p.station !== null && !state.get('place', p.station)) return refuse('unknown-place', 'payload.station');
    const whole = version.content.lines.reduce((sum, l) => sum + l.mg, 0);
    return decided({
      formula: version.formula,
      name: version.name,
      type: version.type,
      makes: version.content.makes,
      scalePpm: p.plannedMg === null ? null : Math.round((p.plannedMg / whole) * 1_000_000),
    });
  },
  rows: ({ payload: p, root, at, doneBy }, o, stamp) => [
    {
      in: 'make',
      id: root,
      row: {
        formula: o.formula,
        formulaVersion: p.formulaVersion,
        formulaName: o.name,
        type: o.type,
        station: p.station,
        plan: p.plan,
        plannedMg: p.plannedMg,
        scalePpm: o.scalePpm,
        bakeDay: p.bakeDay,
        site: stamp.book,
        at,
        doneBy: doneBy ?? stamp.person,
      },
    },
    ownLot(root, { material: o.makes, specification: null, name: o.name, type: 'made', at }),
  ],
});
