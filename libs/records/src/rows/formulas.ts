import { collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { formulaContent, formulaType } from './formula-content.js';

/** A version in force: approved, signed, then fixed. */
export const formulaVersion = collection(
  'formula_version',
  z.object({
    formula: id,
    number: z.int().positive(),
    name: z.string(),
    type: formulaType,
    content: formulaContent,
    /** What it lets through that the version before it did not, and what was noted when it was approved: then why. */
    loosened: z.array(z.string()),
    note: z.string().nullable(),
    since: instant,
  }),
  { by: ['formula'], visibleTo: 'organisation' },
);
export const formulaRetired = collection('formula_retired', z.object({ formula: id, at: instant }), {
  by: ['formula'],
  visibleTo: 'organisation',
});

export const formulasRows = { formulaVersion, formulaRetired } as const;
