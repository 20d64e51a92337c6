import { decided, derivedId, differences, id, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { planProblems } from './plan-problems.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { planBefore, planContent, type PlanContent } from '../rows/plan-content.js';

/** The id of a control point of one plan version. */
export const pointId = (planVersion: string, key: string): string => derivedId(planVersion, key);

const approved = { series: id, number: z.int().positive(), site: id.nullable() };
/** The id of what a plan version says of food past its life. */
const lifeId = (planVersion: string): string => derivedId(planVersion, 'past life');

/**
 * A version of a HACCP plan is in force from now on, at one site or at all (null), signed by the responsible person. What was begun before
 * keeps the version that it began with. That a limit makes sense is checked; that it is safe is for a competent person to validate.
 */
export const planApproved = defineKind({
  name: 'plan-approved',
  version: 2,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I approve this plan; a competent person has validated its limits',
  permission: 'manage.plans',
  phrase: 'A HACCP plan was approved',
  official: 'HACCP plan version approved',
  words: ['note'],
  payload: z.strictObject({ ...approved, content: planContent }),
  /** Before version 2 a plan said nothing of food past its life, and everybody was only warned. */
  upcast: {
    1: upcaster(z.strictObject({ ...approved, content: planBefore }), ({ content, ...same }) => ({
      ...same,
      content: { ...content, pastLife: { opened: 'warn', madeHere: 'warn' } },
    })),
  },
  outcome: z.strictObject({}),
  examples: [
    {
      series: '0190a6d0-7b3c-7000-8000-000000000140',
      number: 1,
      site: null,
      content: {
        name: 'Bread and rolls',
        scope: 'Ambient bread, baked and sold here',
        team: 'Owner, baker',
        pastLife: { opened: 'warn', madeHere: 'hold' },
        points: [
          {
            key: 'core',
            name: 'Core of the coldest loaf',
            step: 'bake',
            class: 'ccp',
            hazard: 'Vegetative pathogens survive',
            formulas: [],
            products: [],
            measured: 'core',
            parameter: 'core temperature',
            limit: { type: 'range', min: '93', max: null, unit: 'degC' },
            holdSeconds: null,
            frequency: 'each-load',
            ifNotMonitored: 'record',
            ifOutside: 'hold',
            correctiveAction: 'Back in the oven, then read again',
            basis: 'The house’s own validation',
          },
        ],
      },
    },
  ],
  books: (p) => (p.site === null ? [] : [{ id: p.site, field: 'payload.site', type: 'site' }]),
  needs: (p): Need[] => [
    { in: 'planVersion', by: 'series', value: p.series },
    ...named(p.content, 'formulas').map((value): Need => ({ in: 'formulaVersion', by: 'formula', value })),
    ...named(p.content, 'products').map((value): Need => ({ in: 'specification', by: 'material', value })),
  ],
  decide({ payload: p }, state, { previous }) {
    if (previous) return differences(previous.payload, p).length > 0 ? refuse('approved-is-fixed', 'payload') : decided({});
    const next = Math.max(0, ...state.find('planVersion', 'series', p.series).map((v) => v.number)) + 1;
    if (p.number !== next) return refuse('not-the-next-number', 'payload.number', String(next));
    return planProblems(p.content, state)[0] ?? decided({});
  },
  rows: ({ payload: p, root, at }): Change[] => [
    { in: 'planVersion', id: root, row: { ...p, since: at } },
    { in: 'planLife', id: lifeId(root), row: { rule: 'life', number: p.number, site: p.site, ...p.content.pastLife, since: at } },
    ...p.content.points.map((content): Change => ({
      in: 'controlPoint',
      id: pointId(root, content.key),
      row: { plan: root, key: content.key, content },
    })),
  ],
});

function named(content: PlanContent, what: 'formulas' | 'products'): string[] {
  return [...new Set(content.points.flatMap((point) => point[what]))];
}
