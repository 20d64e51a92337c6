/**
 * A value of the description with every bound as JSON Schema 2020-12 has it, the dialect of OpenAPI 3.1: the number that is not reached. What stands on
 * the routes is written for OpenAPI 3.0, where a flag beside `minimum` says that it is not reached.
 */
export function inDialect<T>(value: T): T {
  if (Array.isArray(value)) value.forEach(inDialect);
  else if (typeof value === 'object' && value !== null) {
    moveBound(value, 'minimum', 'exclusiveMinimum');
    moveBound(value, 'maximum', 'exclusiveMaximum');
    Object.values(value).forEach(inDialect);
  }
  return value;
}

function moveBound(schema: object, reached: string, notReached: string): void {
  const flag: unknown = Reflect.get(schema, notReached);
  if (typeof flag !== 'boolean') return;
  const bound: unknown = Reflect.get(schema, reached);
  Reflect.deleteProperty(schema, notReached);
  if (!flag || typeof bound !== 'number') return;
  Reflect.deleteProperty(schema, reached);
  Reflect.set(schema, notReached, bound);
}
