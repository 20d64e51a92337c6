import * as z from 'zod';

const fields = z.record(z.string(), z.unknown());

/** The fields of something that was read as it is kept, of any kind; none where it is no object. */
export const fieldsOf = (value: unknown): Record<string, unknown> => fields.safeParse(value).data ?? {};
