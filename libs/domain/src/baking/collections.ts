import * as z from 'zod';
import { collection } from '../kernel/collection.js';
import { day, id, instant } from '../kernel/fields.js';

/** What goes into an oven together. */
export const load = collection('load', z.object({ oven: id, deck: id.nullable(), plan: id.nullable(), bakeDay: day, celsius: z.int().nullable(), minutes: z.int().nullable(), at: instant, doneBy: id.nullable() }), { by: ['bakeDay'] });
export const loadLine = collection('load_line', z.object({ load: id, run: id, product: id, productName: z.string(), pieces: z.int() }), { by: ['load', 'run'] });
export const loadStep = collection('load_step', z.object({ load: id, step: z.enum(['turned', 'out', 'back-in', 'out-again']), minutes: z.int().nullable(), at: instant }), { by: ['load'] });
/** The pieces of one run that share a lot code: the unit that is released, sent out and recalled. Its lot has the same id. */
export const batch = collection('batch', z.object({
  run: id, make: id, product: id, productName: z.string(), code: z.string(), bakedOn: day, bestBefore: day.nullable(), useBy: day.nullable(),
  pieces: z.int(), rejects: z.int(), loads: z.array(id), at: instant,
}), { by: ['run', 'make', 'product', 'code', 'bakedOn'] });
export const release = collection('release', z.object({ batch: id, way: z.enum(['by-rule', 'by-exception']), rule: z.int(), findings: z.array(z.string()), at: instant }), { by: ['batch'] });
export const hold = collection('hold', z.object({ lot: id, because: z.string(), deviation: id.nullable(), recall: id.nullable(), at: instant }), { by: ['lot', 'recall'] });
export const freed = collection('freed', z.object({ hold: id, lot: id, at: instant }), { by: ['hold', 'lot'] });
