import { doughUnit, formulaContent, formulaType, frictionSource, starterKeys } from '@bakehouse/records';
import * as z from 'zod';
import { allergenAnswer, signedBy } from './drafts.js';

const instant = z.iso.datetime();
const weighed = {
  mg: z.int(),
  grams: z.string().meta({ description: 'for reading' }),
  pounds: z.string().meta({ description: 'pounds and ounces, for reading' }),
};
const percent = z.number().nullable().meta({ description: 'of all flours together, to 0.001 %; null where no line is flour' });

export const formulaList = z
  .array(
    z.object({
      formula: z.uuid(),
      version: z.uuid(),
      number: z.int(),
      name: z.string(),
      type: formulaType,
      since: instant,
      signed: signedBy.nullable(),
      makes: z.uuid(),
      totalMg: z.int(),
      flourMg: z.int(),
      products: z.array(z.object({ product: z.uuid(), name: z.string(), scalingMg: z.int() })),
      retired: instant.nullable().meta({ description: 'since when it is retired' }),
    }),
  )
  .meta({ id: 'FormulaList' });
export type FormulaList = z.infer<typeof formulaList>;

export const newFormulaDraft = z
  .strictObject({
    id: z.uuidv7().meta({ description: 'chosen by the client: sending it twice makes one draft' }),
    formula: z.uuid().optional().meta({ description: 'from its newest version; without it, from nothing' }),
    name: z.string().trim().max(120).optional(),
    type: formulaType.optional(),
    starter: z.enum(starterKeys).optional().meta({ description: 'from a starter that nobody has approved; not together with `formula`' }),
  })
  .refine((d) => d.formula === undefined || d.starter === undefined, { path: ['starter'], message: 'either `formula` or `starter`' })
  .meta({ id: 'NewFormulaDraft' });

/** A line in one of the two views. The view is said with it: a percentage without its view means nothing. */
const line = z.object({ material: z.uuid(), name: z.string(), flour: z.boolean(), percent, ...weighed });
const writtenLine = line.extend({ madeBy: z.uuid().nullable() });
const totalLine = line.extend({ prefermentMg: z.int() });
const asWritten = z.object({
  view: z.literal('as-written'),
  says: z.string(),
  lines: z.array(writtenLine),
  totalMg: z.int(),
  flourMg: z.int(),
});
const total = z.object({
  view: z.literal('total'),
  says: z.string(),
  lines: z.array(totalLine),
  totalMg: z.int(),
  flourMg: z.int(),
  prefermentedFlourPercent: z.number().nullable(),
});

export const formulaView = z
  .object({
    formula: z.uuid(),
    name: z.string(),
    type: formulaType,
    retired: instant.nullable(),
    shown: z.object({
      id: z.uuid(),
      number: z.int(),
      name: z.string(),
      since: instant,
      inForce: z.boolean(),
      content: formulaContent.meta({ id: 'FormulaContent' }),
    }),
    versions: z
      .array(
        z.object({
          id: z.uuid(),
          number: z.int(),
          name: z.string(),
          since: instant,
          signed: signedBy.nullable(),
          note: z.string().nullable(),
        }),
      )
      .meta({ description: 'the newest first' }),
    asWritten,
    total,
    allergens: allergenAnswer,
    products: z.array(z.object({ product: z.uuid(), name: z.string(), allergens: allergenAnswer })),
    scaled: z
      .object({ wanted: z.string(), ...weighed, asWritten, total })
      .nullable()
      .meta({ description: 'where an amount was requested; the lines sum to it exactly' }),
    caution: z.string(),
  })
  .meta({ id: 'Formula' });
export type FormulaView = z.infer<typeof formulaView>;

const pieces = z.string().regex(/^[0-9a-f-]{36}:\d{1,7}$/i, 'a product and how many pieces, as <product>:<pieces>');
const decimal = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'a decimal number of zero or more, such as 12.5');

/** How a formula is to be shown: which version, and scaled to what. One of pieces, grams, or pounds and ounces. */
export const formulaRequest = z.strictObject({
  number: z.coerce.number().int().positive().optional(),
  pieces: z.union([pieces.transform((one) => [one]), z.array(pieces).min(1).max(30)]).optional(),
  besidesGrams: decimal.optional(),
  grams: decimal.optional(),
  pounds: decimal.optional(),
  ounces: decimal.optional(),
});
export type FormulaRequest = z.output<typeof formulaRequest>;

const temperature = z
  .string()
  .regex(/^-?\d{1,3}(\.\d{1,3})?$/, 'a temperature such as 21.5')
  .transform(Number);
export const waterRequest = z.strictObject({
  mixer: z.uuid(),
  flour: temperature,
  room: temperature,
  wanted: temperature.optional(),
  leaven: temperature.optional().meta({ description: 'needed where the formula has a preferment or a starter' }),
  unit: doughUnit.default('degC'),
  grams: decimal.optional(),
});
export type WaterRequest = z.output<typeof waterRequest>;

const mixShown = z.object({
  at: instant,
  frictionCelsius: z.number(),
  minutesSlow: z.int().nullable(),
  minutesFast: z.int().nullable(),
  sizePercent: z.number().nullable(),
});
export const waterView = z
  .object({
    formula: z.uuid(),
    mixer: z.object({ id: z.uuid(), name: z.string() }),
    friction: z.object({
      from: frictionSource,
      celsius: z.number().nullable(),
      leastCelsius: z.number().nullable(),
      maxCelsius: z.number().nullable(),
      says: z.string(),
      used: z.array(mixShown),
      others: z.array(mixShown).meta({ description: 'of other minutes or another size: not used' }),
    }),
    water: z
      .object({
        celsius: z.number(),
        fahrenheit: z.number(),
        reachable: z.boolean(),
        reason: z.string().nullable(),
        explanation: z.string(),
        source: z.string(),
        validRange: z.string().nullable(),
        cautions: z.array(z.string()),
      })
      .nullable()
      .meta({ description: 'null where no friction factor or no wanted temperature is known: `missing` says which' }),
    missing: z.string().nullable(),
    caution: z.string(),
  })
  .meta({ id: 'WaterTemperature' });
export type WaterView = z.infer<typeof waterView>;
