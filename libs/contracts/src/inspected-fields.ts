import { certainty } from '@bakehouse/kernel';
import * as z from 'zod';

const instant = z.iso.datetime();
export const count = z.int().nullable();
/** Somebody, as far as the reader may know. */
export const who = z.string().nullable().meta({ description: 'a name; null where it is withheld' });
/** When it happened and how surely that is known; `until` where it was between two instants. */
export const happened = { at: instant, precision: certainty.nullable(), until: instant.nullable() };
/** When it happened, how surely that is known, when it was recorded, and by whom. */
export const told = {
  ...happened,
  recordedAt: instant.nullable(),
  doneBy: who,
  recordedBy: who,
  note: z.string().nullable(),
};
