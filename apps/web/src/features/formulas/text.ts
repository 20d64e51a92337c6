import { formulaDraftView, type FormulaDraftView } from '@bakehouse/contracts';
import { additionAfter, blankFormula, dateType, formulaType } from '@bakehouse/records';
import * as z from 'zod';
import type { DraftType, Writing } from '../../shared/drafts/use-draft';

const count = z.number().nullable().catch(null);
const words = z.string().catch('');
const some = z.string().nullable().catch(null);

const line = z.looseObject({ material: some, name: words, mg: count, flour: z.boolean().catch(false), madeBy: some });
const step = z.looseObject({ key: words, type: words, name: words, minutes: count, maxMinutes: count, speed: some });
const oven = z.looseObject({ oven: words, celsius: count, finishCelsius: count, minutes: count, steamSeconds: count });
const addition = z.looseObject({
  material: some,
  name: words,
  mgPerPiece: count,
  after: additionAfter.catch('before-oven'),
});
const product = z.looseObject({
  product: some,
  name: words,
  scalingMg: count,
  pieces: count,
  bakedMg: count,
  lossPpm: count,
  lifeDays: count,
  dateType: dateType.catch('best-before'),
  ovens: z.array(oven).catch([]),
  additions: z.array(addition).catch([]),
});
const rework = z.looseObject({
  sources: z.array(z.looseObject({ material: some, name: words })).catch([]),
  maxFlourBp: count,
  maxAgeHours: count,
  maxTimes: count,
});
const content = z.looseObject({
  lines: z.array(line).catch([]),
  steps: z.array(step).catch([]),
  products: z.array(product).catch([]),
  makes: some,
  doughCelsius: z.looseObject({ min: words, max: words }).nullable().catch(null),
  frictionCelsius: some,
  minutesSlow: count,
  minutesFast: count,
  lifeHours: count,
  rework: rework.nullable().catch(null),
});
const text = z.looseObject({ name: words, type: formulaType.catch('dough'), content });

/** A formula as it is being written: anything may be missing still, and what the page does not know it keeps. */
export type Text = z.infer<typeof text>;
export type Line = z.infer<typeof line>;
export type Step = z.infer<typeof step>;
export type Product = z.infer<typeof product>;
export type Oven = z.infer<typeof oven>;
export type Addition = z.infer<typeof addition>;
export type Rework = z.infer<typeof rework>;

/** Reads whatever a draft holds. */
export function readText(raw: unknown): Text {
  const read = text.safeParse(raw);
  return read.success ? read.data : text.parse(blankFormula('', 'dough'));
}

export const blankLine: Line = { material: null, name: '', mg: null, flour: false, madeBy: null };
export const blankRework: Rework = { sources: [], maxFlourBp: null, maxAgeHours: null, maxTimes: null };
export const blankOven: Oven = { oven: '', celsius: null, finishCelsius: null, minutes: null, steamSeconds: 0 };
export const blankAddition: Addition = { material: null, name: '', mgPerPiece: null, after: 'before-oven' };
export const blankProduct: Product = {
  product: null,
  name: '',
  scalingMg: null,
  pieces: null,
  bakedMg: null,
  lossPpm: null,
  lifeDays: null,
  dateType: 'best-before',
  ovens: [],
  additions: [],
};

/** A step of a type with a key of its own among the others. */
export function newStep(type: string, called: string, others: readonly Step[]): Step {
  const taken = new Set(others.map((s) => s.key));
  let key = type;
  for (let n = 2; taken.has(key); n += 1) key = `${type}-${n}`;
  return { key, type, name: called, minutes: null, maxMinutes: null, speed: null, target: null, place: null };
}

/** A formula's draft in somebody's hands. */
export type FormulaWriting = Writing<FormulaDraftView, Text>;
export const formulaDrafts: DraftType<FormulaDraftView, Text> = { path: '/formulas/drafts', answer: formulaDraftView, read: readText };

/** A baker's percentage to a tenth; nothing where there is no flour to count from. */
export const percentText = (percent: number | null): string => (percent === null ? '' : `${percent.toFixed(1)} %`);
