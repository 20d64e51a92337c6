import * as z from 'zod';

/** Payloads as this tablet wrote them, read back for a correction. */
const observed = z.object({ figure: z.string(), unit: z.string() }).nullable();
const sorts = z.enum(['make', 'load', 'run', 'batch', 'lot', 'delivery', 'place', 'instrument', 'site']);
const reading = z.object({
  subjectType: sorts,
  subject: z.string(),
  point: z.string().nullable(),
  instrument: z.string().nullable(),
  value: observed,
  seconds: z.number().nullable(),
});
const mix = z.object({
  make: z.string(),
  minutesSlow: z.number().nullable(),
  minutesFast: z.number().nullable(),
  water: observed,
  flour: observed,
  room: observed,
  dough: observed,
});
const divided = z.object({
  make: z.string(),
  oldDough: observed,
  scrap: observed,
  runs: z.array(
    z.object({
      run: z.string(),
      product: z.string(),
      heads: z.number().nullable(),
      pieces: z.number(),
      scaling: z.object({ figure: z.string() }),
    }),
  ),
});
const counted = z.object({
  run: z.string(),
  loads: z.array(z.string()),
  pieces: z.number(),
  rejects: z.number(),
  code: z.string(),
  bakedOn: z.string(),
  bestBefore: z.string().nullable(),
  useBy: z.string().nullable(),
});
const how = z.enum(['weighed', 'by-recipe', 'estimated', 'label', 'counted']);
const weighed = z.object({
  make: z.string(),
  lines: z.array(
    z.object({
      material: z.string(),
      lot: z.string().nullable(),
      quantity: observed,
      how,
      type: z.enum(['ingredient', 'late-addition', 'rework', 'aid']),
    }),
  ),
});

export const readReading = (payload: unknown) => reading.safeParse(payload).data;
export const readMix = (payload: unknown) => mix.safeParse(payload).data;
export const readDivided = (payload: unknown) => divided.safeParse(payload).data;
export const readCounted = (payload: unknown) => counted.safeParse(payload).data;
export const readWeighed = (payload: unknown) => weighed.safeParse(payload).data;
