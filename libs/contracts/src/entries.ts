import { problems } from '@bakehouse/kernel';
import * as z from 'zod';

const codes = Object.keys(problems) as (keyof typeof problems)[]; // keys of a constant object: TypeScript widens them to string

/** The pipe checks no more than this: each entry is parsed inside the door, and its refusal is its own result. */
export const newEntries = z
  .array(z.unknown())
  .min(1)
  .max(200)
  .meta({ id: 'NewEntries', description: 'one to 200 entries; each gets its own result' });

export const receipt = z.object({ book: z.uuid(), seq: z.int(), leaf: z.string(), recordedAt: z.iso.datetime() }).meta({ id: 'Receipt' });

export const entryResult = z
  .discriminatedUnion('as', [
    z.object({ as: z.literal('recorded'), id: z.uuid(), receipt, outcome: z.unknown() }),
    z.object({ as: z.literal('already-recorded'), id: z.uuid(), receipt, outcome: z.unknown() }),
    z.object({ as: z.literal('waiting'), id: z.uuid(), waitingFor: z.array(z.uuid()) }).meta({
      description:
        'Not recorded, and without effect: send it again once what it waits for was recorded. Until then it is listed as set aside.',
    }),
    z.object({
      as: z.literal('refused'),
      id: z.string().nullable(),
      problem: z.enum(codes),
      title: z.string(),
      detail: z.string(),
      field: z.string().optional(),
      acceptable: z.string().optional(),
    }),
  ])
  .meta({ id: 'EntryResult' });
export type EntryResult = z.infer<typeof entryResult>;
export const entryResults = z.array(entryResult).meta({ id: 'EntryResults' });
