import * as z from 'zod';
import { collection } from '../kernel/collection.js';
import { id, instant } from '../kernel/fields.js';
import { formulaContent, formulaSort } from './content.js';

/** A version that is baked by: approved, signed, then fixed. */
export const formulaVersion = collection(
  'formula_version',
  z.object({
    formula: id,
    number: z.int().positive(),
    name: z.string(),
    sort: formulaSort,
    content: formulaContent,
    since: instant,
  }),
  { by: ['formula'], reach: 'organisation' },
);
export const formulaAway = collection('formula_away', z.object({ formula: id, at: instant }), { by: ['formula'], reach: 'organisation' });
