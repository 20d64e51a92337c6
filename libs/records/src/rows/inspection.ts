import { calendarDay as day, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

/**
 * An inspector may look, and only look, at these sites' records of these days (`until` null: up to the day of looking) before `expires`.
 * Without such a row in force an inspector sees nothing.
 */
export const accessGiven = collection(
  'access_given',
  z.object({
    person: id,
    sites: z.array(id),
    from: day,
    until: day.nullable(),
    expires: instant,
    at: instant,
  }),
  { by: ['person'], visibleTo: 'organisation' },
);
export const accessEnded = collection('access_ended', z.object({ access: id, person: id, at: instant }), {
  by: ['access', 'person'],
  visibleTo: 'organisation',
});

export const inspectionRows = { accessGiven, accessEnded } as const;
