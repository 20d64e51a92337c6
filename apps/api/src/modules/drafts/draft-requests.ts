import * as z from 'zod';

/** Drafts in hand, or those archived. */
export const whichDrafts = z.strictObject({ archived: z.enum(['yes', 'no']).default('no') });

/** How the API's description tells of If-Match, for every route that saves. */
export const ifMatchHeader = { name: 'If-Match', required: true, description: 'the revision that you read, as an entity tag: "3"' };
