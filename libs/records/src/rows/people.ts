import { collection, id, instant, role } from '@bakehouse/kernel';
import * as z from 'zod';

export const person = collection('person', z.object({ name: z.string().nullable(), joinedAt: instant }), {
  by: [],
  visibleTo: 'organisation',
});
export const personLeft = collection('person_left', z.object({ person: id, at: instant }), { by: ['person'], visibleTo: 'organisation' });
/** A role at one site, or at every site of the organisation (site null), from–until; until null is "until taken away". */
export const roleGiven = collection(
  'role_given',
  z.object({ person: id, role, site: id.nullable(), since: instant, until: instant.nullable() }),
  { by: ['person', 'role'], visibleTo: 'organisation' },
);
export const roleTaken = collection('role_taken', z.object({ given: id, person: id, at: instant }), {
  by: ['person', 'given'],
  visibleTo: 'organisation',
});

export const peopleRows = { person, personLeft, roleGiven, roleTaken } as const;
