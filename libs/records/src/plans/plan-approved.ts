import { decided, derivedId, differences, id, refuse, upcaster, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { asApproved, loosenedInForce, loosenedProblems } from './loosened-in-state.js';
import { planProblems } from './plan-problems.js';
import { allPlans, plansReplaced } from './plans-replaced.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { loosenedAsApproved, looseningBasis, type LooseningBasis } from '../rows/loosened.js';
import { planBefore, planBeforeValidation, planContent, type PlanContent } from '../rows/plan-content.js';

/** The id of a control point of one plan version. */
export const pointId = (planVersion: string, key: string): string => derivedId(planVersion, key);

const approved = { series: id, number: z.int().positive(), site: id.nullable() };
/** The id of what a plan version says of food past its life. */
const lifeId = (planVersion: string): string => derivedId(planVersion, 'past life');

/**
 * A version of a HACCP plan is in force from now on, at one site or at all (null), signed by the responsible person. What was begun before
 * keeps the version that it began with. That a limit makes sense is checked; that it is safe is for a competent person to validate. What it lets
 * through that the plan in force does not is refused until somebody says why, and who validated that on what and when.
 */
export const planApproved = defineKind({
  name: 'plan-approved',
  version: 3,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I approve this plan; I have read each limit and what it rests on',
  permission: 'manage.plans',
  phrase: 'A HACCP plan was approved',
  official: 'HACCP plan version approved',
  words: ['note'],
  payload: z.strictObject({ ...approved, content: planContent, loosened: z.array(looseningBasis).max(200).default([]) }),
  /**
   * Before version 2 a plan said nothing of food past its life, and everybody was only warned. Before version 3 no point said who validated its limit,
   * and nobody was asked why one was loosened.
   */
  upcast: {
    1: upcaster(z.strictObject({ ...approved, content: planBefore }), ({ content, ...same }) => ({
      ...same,
      content: { ...content, pastLife: { opened: 'warn', madeHere: 'warn' } },
    })),
    2: upcaster(z.strictObject({ ...approved, content: planBeforeValidation }), ({ content, ...same }) => ({
      ...same,
      content: { ...content, points: content.points.map((point) => ({ ...point, validated: null })) },
      loosened: [],
    })),
  },
  /** Before version 2 of the outcome nothing was compared with the plan in force. */
  outcome: z.strictObject({ loosened: z.array(loosenedAsApproved) }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject({}), () => ({ loosened: [] })) },
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
            validated: { by: 'The food-safety lead', on: '2026-03-02' },
          },
        ],
      },
      loosened: [],
    },
  ],
  books: (p) => (p.site === null ? [] : [{ id: p.site, field: 'payload.site', type: 'site' }]),
  needs: (p): Need[] => [
    { in: 'planVersion', by: 'series', value: p.series },
    allPlans,
    ...named(p.content, 'formulas').map((value): Need => ({ in: 'formulaVersion', by: 'formula', value })),
    ...named(p.content, 'products').map((value): Need => ({ in: 'specification', by: 'material', value })),
  ],
  then: ({ site }, state, { at }): Need[] => plansReplaced(state, site, at).map((plan) => ({ in: 'planVersion', id: plan })),
  decide({ payload: p, at }, state, { previous }) {
    if (previous) return differences(previous.payload, p).length > 0 ? refuse('approved-is-fixed', 'payload') : decided(previous.outcome);
    const next = Math.max(0, ...state.find('planVersion', 'series', p.series).map((v) => v.number)) + 1;
    if (p.number !== next) return refuse('not-the-next-number', 'payload.number', String(next));
    const loosened = loosenedInForce(state, p.site, p.content, at);
    const [problem] = [...planProblems(p.content, state), ...loosenedProblems(loosened, p.loosened), ...validatedLater(p, at)];
    return problem ?? decided({ loosened: asApproved(loosened, p.loosened) });
  },
  rows: ({ payload: p, root, at }, { loosened }): Change[] => [
    { in: 'planVersion', id: root, row: { ...p, loosened, since: at } },
    {
      in: 'planLife',
      id: lifeId(root),
      row: { rule: 'life', plan: root, number: p.number, site: p.site, ...p.content.pastLife, since: at },
    },
    ...p.content.points.map((content): Change => ({
      in: 'controlPoint',
      id: pointId(root, content.key),
      row: { plan: root, key: content.key, content },
    })),
  ],
});

/** A validation that is still to come is none. A day is compared as it is on the latest wall of the earth: nobody knows here which one it was written by. */
function validatedLater(
  { content, loosened }: { readonly content: PlanContent; readonly loosened: readonly LooseningBasis[] },
  at: string,
): Refused[] {
  const latest = new Date(Date.parse(at) + 14 * 3_600_000).toISOString().slice(0, 10);
  const later = (field: string, day: string | undefined): Refused[] =>
    day !== undefined && day > latest ? [refuse('unacceptable-value', field, 'the day on which it was validated: today or earlier')] : [];
  return [
    ...loosened.flatMap((one, i) => later(`payload.loosened.${i}.validatedOn`, one.validatedOn)),
    ...content.points.flatMap((point, i) => later(`payload.content.points.${i}.validated.on`, point.validated?.on)),
  ];
}

function named(content: PlanContent, what: 'formulas' | 'products'): string[] {
  return [...new Set(content.points.flatMap((point) => point[what]))];
}
