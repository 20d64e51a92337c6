import * as z from 'zod';
import { recallView } from './trace.js';
import { sealView } from './seals.js';

const instant = z.iso.datetime();

/** A recall case as it leaves the house: the case, what it was frozen at, and under which seals. */
export const recallPaper = z
  .object({
    paper: z.literal('recall'),
    business: z.string(),
    practice: z.boolean(),
    printedAt: instant,
    zone: z.string(),
    caution: z.string(),
    recall: recallView,
    frozenUnder: z.array(sealView).meta({ description: 'the books as they were when the scope was frozen' }),
    recordedUnder: sealView.meta({ description: 'the organisation’s book, which holds the case itself' }),
    schema: z.record(z.string(), z.unknown()).meta({ description: 'the JSON Schema of everything here' }),
  })
  .meta({ id: 'RecallPaper' });
export type RecallPaper = z.infer<typeof recallPaper>;
