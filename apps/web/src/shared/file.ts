import * as z from 'zod';

/** What is asked for as a file: with `parseAs: 'blob'`. */
export const file = z.instanceof(Blob);
