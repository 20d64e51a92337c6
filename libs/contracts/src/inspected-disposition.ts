import { covers, finding } from '@bakehouse/records';
import * as z from 'zod';
import { count, told, who } from './inspected-fields.js';

/** What somebody decided about the food of a deviation. */
export const inspectedDisposition = z.object({
  ...told,
  of: z.string().nullable().meta({ description: 'the one lot that it is about, where that is not what the deviation is about' }),
  disposition: z.string(),
  covers: covers.nullable().default(null),
  pieces: count,
  mg: count,
  also: z.array(finding.pick({ code: true, what: true })).meta({ description: 'what else held the food, that it is about as well' }),
  signedBy: who.default(null),
});
