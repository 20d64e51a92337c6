import { collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { planContent, pointContent } from './plan-content.js';

/**
 * An approved version of a HACCP plan, for one site or for all; the latest `since` (then seq) for a site is the one in force.
 * `series` is the same for all versions of one plan.
 */
export const planVersion = collection(
  'plan_version',
  z.object({ series: id, number: z.int().positive(), site: id.nullable(), content: planContent, since: instant }),
  { by: ['series'], visibleTo: 'organisation' },
);
/** One control point of one plan version, on its own so that a reading needs no more than it. */
export const controlPoint = collection('control_point', z.object({ plan: id, key: z.string(), content: pointContent }), {
  by: ['plan'],
  visibleTo: 'organisation',
});

export const plansRows = { planVersion, controlPoint } as const;
