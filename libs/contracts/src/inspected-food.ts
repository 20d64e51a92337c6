import { channel } from '@bakehouse/records';
import * as z from 'zod';
import { count, told, who } from './inspected-fields.js';

/** The decisions about food, by the words that each is said in. */
export const decisionAbout = z.enum(['disposition', 'recallLotDecision', 'release', 'decision']);

/** What somebody decided about food in the period, whichever record it was decided in. */
export const inspectedDecision = z
  .object({
    id: z.uuid(),
    ...told,
    food: z.string().nullable().meta({ description: 'what it is about, by name and code; null where nothing on record has a name' }),
    type: decisionAbout.meta({
      description: 'where its words are: a decision about food, one in a recall case, a release by exception, or one about what came in',
    }),
    decision: z.string(),
    pieces: count,
    mg: count,
    because: z.string().nullable().meta({ description: 'what was found, or the hazard of the case' }),
    why: z.string().nullable().meta({ description: 'the reason that was given' }),
    signedBy: who,
  })
  .meta({ id: 'InspectedDecision' });
export type InspectedDecision = z.infer<typeof inspectedDecision>;

/** Food that left as waste or feed, or went back to its supplier, without a decision that says so. */
export const inspectedWaste = z
  .object({
    id: z.uuid(),
    ...told,
    food: z.array(z.string()).meta({ description: 'by name and code; several where it was one of them, nobody knows which' }),
    channel,
    pieces: count,
    mg: count,
    record: z.string().meta({ description: 'the kind of the record that says so' }),
  })
  .meta({ id: 'InspectedWaste' });
export type InspectedWaste = z.infer<typeof inspectedWaste>;
