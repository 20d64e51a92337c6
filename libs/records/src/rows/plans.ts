import { collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { loosenedAsApproved } from './loosened.js';
import { planContent, pointContent } from './plan-content.js';
import { lifeRule } from './point-fields.js';

/**
 * An approved version of a HACCP plan, for one site or for all; the latest `since` (then seq) for a site is the one in force.
 * `series` is the same for all versions of one plan. `loosened` is what it lets through that the plan before it did not, with reason and basis.
 */
export const planVersion = collection(
  'plan_version',
  z.object({
    series: id,
    number: z.int().positive(),
    site: id.nullable(),
    content: planContent,
    loosened: z.array(loosenedAsApproved),
    since: instant,
  }),
  { by: ['series'], visibleTo: 'organisation' },
);
/** One control point of one plan version, on its own so that a reading needs no more than it. */
export const controlPoint = collection('control_point', z.object({ plan: id, key: z.string(), content: pointContent }), {
  by: ['plan'],
  visibleTo: 'organisation',
});
/** What each plan version says of food past its life, on its own so that how a lot stands needs no more of a plan. `rule` is the same for all, to find them by. */
export const planLife = collection(
  'plan_life',
  z.object({
    rule: z.literal('life'),
    plan: id,
    number: z.int().positive(),
    site: id.nullable(),
    opened: lifeRule,
    madeHere: lifeRule,
    since: instant,
  }),
  { by: ['rule'], visibleTo: 'organisation' },
);

export const plansRows = { planVersion, controlPoint, planLife } as const;
