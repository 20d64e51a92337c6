import * as z from 'zod';
import type { Schema } from './described.js';
import type { Dice } from './dice.js';

/** Ids that are there, by the name of the field or parameter they are asked for with. */
export type Known = ReadonlyMap<string, readonly string[]>;

const read = z.object({
  $ref: z.string().optional(),
  anyOf: z.array(z.record(z.string(), z.unknown())).optional(),
  oneOf: z.array(z.record(z.string(), z.unknown())).optional(),
  const: z.unknown().optional(),
  enum: z.array(z.unknown()).optional(),
  type: z.union([z.string(), z.array(z.string())]).optional(),
  properties: z.record(z.string(), z.record(z.string(), z.unknown())).optional(),
  required: z.array(z.string()).default([]),
  additionalProperties: z.union([z.boolean(), z.record(z.string(), z.unknown())]).default(false),
  items: z.record(z.string(), z.unknown()).optional(),
  minItems: z.number().default(0),
  maxItems: z.number().default(4),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
  minLength: z.number().default(0),
  maxLength: z.number().default(40),
  format: z.string().optional(),
  pattern: z.string().optional(),
});
type Read = z.infer<typeof read>;

/** Texts of a few forms; which of them fits a pattern is tried. */
const forms: readonly ((dice: Dice) => string)[] = [
  (d) => d.digits(4, 8),
  (d) => d.hex(32),
  (d) => d.hex(64),
  (d) => `${d.digits(1, 3)}.${d.digits(1, 3)}`,
  (d) => d.digits(1, 3),
  (d) => `-${d.digits(1, 2)}`,
  (d) => `${d.uuid()}:${d.digits(1, 4)}`,
  (d) => d.word(),
];

/** Values as a schema of the description asks for them, with ids that are there where their name says which. */
export class FromSchema {
  private readonly seen = new WeakMap<object, Read>();

  constructor(
    private readonly schemas: Readonly<Record<string, Schema>>,
    private readonly known: Known,
  ) {}

  value(schema: Schema, dice: Dice, name = '', depth = 0): unknown {
    const of = this.read(schema);
    if (of.$ref !== undefined) return this.value(this.schemas[of.$ref.replace('#/components/schemas/', '')] ?? {}, dice, name, depth);
    const ways = of.oneOf ?? of.anyOf;
    if (ways !== undefined) return this.value(dice.of(ways), dice, name, depth);
    if ('const' in schema) return of.const;
    if (of.enum !== undefined) return dice.of(of.enum);
    switch (Array.isArray(of.type) ? dice.of(of.type) : of.type) {
      case 'object':
        return this.object(of, dice, depth);
      case 'array':
        return Array.from({ length: between(dice, of.minItems, Math.min(of.maxItems, of.minItems + 3)) }, () =>
          this.value(of.items ?? {}, dice, name, depth + 1),
        );
      case 'integer':
      case 'number':
        return this.number(of, dice);
      case 'boolean':
        return dice.chance(0.5);
      case 'string':
        return this.text(of, dice, name);
      case 'null':
        return null;
      default:
        return dice.of<unknown>([1, 'x', null, {}, []]);
    }
  }

  private read(schema: Schema): Read {
    const known = this.seen.get(schema);
    if (known !== undefined) return known;
    const of = read.parse(schema);
    this.seen.set(schema, of);
    return of;
  }

  private object(of: Read, dice: Dice, depth: number): unknown {
    const fields = Object.entries(of.properties ?? {}).filter(([key]) => of.required.includes(key) || dice.chance(depth > 3 ? 0.2 : 0.5));
    const more = typeof of.additionalProperties === 'object' && dice.chance(0.4) ? of.additionalProperties : undefined;
    return Object.fromEntries([
      ...fields.map(([key, schema]) => [key, this.value(schema, dice, key, depth + 1)]),
      ...(more === undefined ? [] : [[dice.of(['note', 'reason', 'why', 'what', 'name']), this.value(more, dice, '', depth + 1)]]),
    ]);
  }

  private number({ minimum = -1000, maximum = 1_000_000, type }: Read, dice: Dice): number {
    const edges = [minimum, maximum, Math.max(minimum, 0), Math.max(minimum, 1)];
    if (dice.chance(0.15)) return dice.of(edges);
    const within = Math.max(minimum, -1000) + dice.next() * Math.min(maximum - Math.max(minimum, -1000), 1000);
    return type === 'integer' ? Math.round(within) : within;
  }

  private text(of: Read, dice: Dice, name: string): string {
    if (of.format === 'uuid') {
      const ids = this.known.get(name);
      if (name === 'id' || ids === undefined) return dice.uuid();
      return dice.chance(0.9) ? dice.of(ids) : dice.uuid();
    }
    if (of.format === 'date') return `2026-${dice.of(['11', '12'])}-${dice.of(['01', '24', '25', '26', '30'])}`;
    if (of.format === 'date-time')
      return `2026-11-25T0${dice.of(['1', '2', '3'])}:${dice.of(['00', '30', '59'])}:00${dice.of(['Z', '+00:00', '.5Z', '-01:00'])}`;
    const given = this.known.get(name);
    const pattern = of.pattern === undefined ? undefined : new RegExp(of.pattern);
    const fitting = [...(given === undefined ? [] : [(d: Dice) => d.of(given)]), ...forms].filter(
      (form) => pattern?.test(form(dice)) ?? true,
    );
    const made = fitting.length === 0 ? dice.word() : dice.of(fitting)(dice);
    return made.slice(0, of.maxLength).padEnd(of.minLength, 'x');
  }
}

const between = (dice: Dice, from: number, to: number): number => from + Math.floor(dice.next() * (Math.max(from, to) - from + 1));
