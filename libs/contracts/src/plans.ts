import { loosenedAsApproved, planContent, starterPlan } from '@bakehouse/records';
import * as z from 'zod';
import { signedBy } from './drafts.js';

const instant = z.iso.datetime();
const head = z.object({
  id: z.uuid(),
  series: z.uuid(),
  number: z.int(),
  site: z.uuid().nullable().meta({ description: 'null for every site' }),
  name: z.string(),
  since: instant,
  signed: signedBy.nullable(),
  points: z.int(),
  note: z.string().nullable(),
});
const content = planContent.meta({ id: 'PlanContent' });

export const planOverview = z
  .object({
    sites: z.array(
      z.object({ site: z.uuid(), name: z.string(), plan: head.extend({ content }).nullable().meta({ description: 'in force there now' }) }),
    ),
    history: z.array(head).meta({ description: 'every approved version, the newest first' }),
    caution: z.string(),
  })
  .meta({ id: 'Plans' });
export type PlanOverview = z.infer<typeof planOverview>;

export const planView = head
  .extend({
    content,
    loosened: z
      .array(loosenedAsApproved)
      .meta({ description: 'what it lets through that the plan in force before it did not, with why and what that rests on' }),
    inForceAt: z.array(z.uuid()),
    caution: z.string(),
  })
  .meta({ id: 'Plan' });
export type PlanView = z.infer<typeof planView>;

export const newPlanDraft = z
  .strictObject({
    id: z.uuidv7().meta({ description: 'chosen by the client: sending it twice makes one draft' }),
    series: z.uuid().optional().meta({ description: 'from its newest version; without it, from nothing' }),
    name: z.string().trim().max(120).optional(),
    site: z.uuid().nullable().optional(),
    starter: z
      .literal(starterPlan.key)
      .optional()
      .meta({ description: 'from a starter that nobody has approved; not together with `series`' }),
  })
  .refine((d) => d.series === undefined || d.starter === undefined, { path: ['starter'], message: 'either `series` or `starter`' })
  .meta({ id: 'NewPlanDraft' });
