import * as z from 'zod';

/** The JSON Schema of what goes in or comes out. A named schema comes from zod as a reference to a definition of its own: this is the definition. */
export function jsonSchemaOf(schema: z.ZodType, io: 'input' | 'output'): object {
  const { $schema: _dialect, $defs, $ref, ...plain } = z.toJSONSchema(schema, { io, unrepresentable: 'any', reused: 'inline' });
  return ($ref === undefined ? undefined : $defs?.[$ref.slice('#/$defs/'.length)]) ?? plain;
}
