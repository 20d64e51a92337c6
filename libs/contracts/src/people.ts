import { role } from '@bakehouse/kernel';
import * as z from 'zod';

const instant = z.iso.datetime();

/** All people who ever joined, with their permissions now. For those who manage people. */
export const peopleList = z
  .array(
    z.object({
      id: z.uuid(),
      name: z.string().nullable(),
      joinedAt: instant,
      leftAt: instant.nullable(),
      hasPin: z.boolean(),
      roles: z.array(z.object({ given: z.uuid(), role, site: z.uuid().nullable(), until: instant.nullable() })),
      accesses: z.array(z.object({ access: z.uuid(), from: z.iso.date(), until: z.iso.date().nullable(), expires: instant })),
    }),
  )
  .meta({ id: 'PeopleList' });
export type PeopleList = z.infer<typeof peopleList>;
