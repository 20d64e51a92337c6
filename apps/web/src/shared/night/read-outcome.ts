import * as z from 'zod';

/** Outcomes as screens read them: what a kind decided, checked before it is believed. */
const verdict = z.enum(['within', 'outside', 'unsure', 'not-believable', 'no-limit']);
const judged = z.object({
  verdict,
  class: z.enum(['ccp', 'oprp', 'process-check']).nullable(),
  deviation: z.enum(['none', 'opened', 'stays']),
  holds: z.boolean(),
});
export type Judged = z.infer<typeof judged>;
export const readJudged = (outcome: unknown): Judged | undefined => judged.safeParse(outcome).data;

const cause = z.object({ what: z.enum(['fast-minutes', 'slow-minutes', 'size-percent']), actual: z.number(), planned: z.number() });
const mixed = z.object({ friction: z.number().nullable(), expected: z.number().nullable(), causes: z.array(cause) });
export type MixedFound = z.infer<typeof mixed>;
export const readMixed = (outcome: unknown): MixedFound | undefined => mixed.safeParse(outcome).data;

const opened = z.object({
  newAllergens: z.object({ contains: z.array(z.string()), mayContain: z.array(z.string()) }),
  trouble: z.string().nullable(),
  instead: z.boolean(),
  name: z.string(),
});
export type OpenedFound = z.infer<typeof opened>;
export const readOpened = (outcome: unknown): OpenedFound | undefined => opened.safeParse(outcome).data;

const delivered = z.object({ lines: z.array(z.object({ name: z.string(), reading: judged.nullable() })) });
export const readDelivered = (outcome: unknown): z.infer<typeof delivered> | undefined => delivered.safeParse(outcome).data;

const sent = z.object({
  lines: z.array(
    z.object({
      name: z.string(),
      troubled: z.array(
        z.object({ lot: z.string(), trouble: z.enum(['held-lot-used', 'refused-lot-used', 'expired-lot-used', 'not-released']) }),
      ),
    }),
  ),
});
export type SentFound = z.infer<typeof sent>;
export const readSent = (outcome: unknown): SentFound | undefined => sent.safeParse(outcome).data;

const counted = z.object({ name: z.string(), difference: z.number().nullable() });
export const readCounted = (outcome: unknown): z.infer<typeof counted> | undefined => counted.safeParse(outcome).data;

const probe = z.object({
  name: z.string(),
  milli: z.number(),
  referenceMilli: z.number(),
  toleranceMilli: z.number(),
  passed: z.boolean(),
});
export type ProbeFound = z.infer<typeof probe>;
export const readProbe = (outcome: unknown): ProbeFound | undefined => probe.safeParse(outcome).data;

const payload = z.record(z.string(), z.unknown());
export const readPayload = (value: unknown): Record<string, unknown> => payload.safeParse(value).data ?? {};
