import * as z from 'zod';
import { collection } from '../kernel/collection.js';
import { id, instant } from '../kernel/fields.js';
import { formulaContent, formulaType } from './content.js';

/** A version that is baked by: approved, signed, then fixed. */
export const formulaVersion = collection(
  'formula_version',
  z.object({
    formula: id,
    number: z.int().positive(),
    name: z.string(),
    type: formulaType,
    content: formulaContent,
    since: instant,
  }),
  { by: ['formula'], visibleTo: 'organisation' },
);
export const formulaRetired = collection('formula_retired', z.object({ formula: id, at: instant }), {
  by: ['formula'],
  visibleTo: 'organisation',
});
