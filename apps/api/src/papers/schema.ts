import * as z from 'zod';

/** The JSON Schema of a paper with every definition that it refers to: it is read where this service is not at hand. */
export function wholeSchemaOf(schema: z.ZodType): Record<string, unknown> {
  return { ...z.toJSONSchema(schema, { io: 'output', unrepresentable: 'any' }) };
}
