import { permission, role } from '@bakehouse/kernel';
import * as z from 'zod';

/** The steps from nothing to a first released batch, in the order in which they are done. */
export const setupStep = z.enum([
  'people',
  'tablet',
  'site',
  'places',
  'instruments',
  'suppliers',
  'materials',
  'formula',
  'plan',
  'delivery',
  'opened',
  'dough',
  'load',
  'release',
]);
export type SetupStep = z.infer<typeof setupStep>;

const missing = z.object({
  says: z.string(),
  about: z
    .object({ type: z.enum(['material', 'formula-draft', 'plan-draft', 'starters', 'instrument']), id: z.uuid().nullable() })
    .nullable()
    .meta({ description: 'what it is about, where that is one thing with a page of its own' }),
});

export const setup = z
  .object({
    site: z.object({ id: z.uuid(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
    done: z.boolean(),
    next: setupStep.nullable().meta({ description: 'the first step that is not done; null where all are' }),
    steps: z.array(
      z.object({
        step: setupStep,
        done: z.boolean(),
        has: z.string().nullable().meta({ description: 'what is there already, in words' }),
        missing: z.array(missing).meta({ description: 'what exactly is missing; empty where it is done' }),
        more: z.int().meta({ description: 'how many more are missing than are listed' }),
        permission,
        roles: z.array(role).meta({ description: 'the roles that may do it' }),
        people: z
          .array(z.object({ person: z.uuid(), name: z.string().nullable() }))
          .meta({ description: 'who may do it here now, with a PIN where one is needed' }),
      }),
    ),
    caution: z.string(),
  })
  .meta({ id: 'Setup' });
export type Setup = z.infer<typeof setup>;
