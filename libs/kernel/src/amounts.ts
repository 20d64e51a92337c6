import type * as z from 'zod';
import type { observed } from './fields.js';
import { refuse, type Outcome } from './refusal.js';
import { canonical, convertExact, dimensionOf, weightOf, type Unit } from './units.js';

export type Observed = z.infer<typeof observed>;
export interface Amount {
  mg: number | null;
  pieces: number | null;
}

/**
 * The canonical integer of a value as observed, or undefined where it is too large to be one: a slip of the finger, never a fault.
 */
export const canonicalOf = (value: Observed): number | undefined => ifInRange(() => canonical(value.figure, value.unit));

function ifInRange(whole: () => number): number | undefined {
  try {
    return whole();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/**
 * The canonical amount of what was weighed, measured or counted: milligrams, or whole pieces. A volume needs the material's density.
 * Refuses a unit that fits neither and an amount below zero; null in, nulls out.
 */
export function amountOf(quantity: Observed | null, material: { densityMgPerMl: number | null }, field: string): Outcome<Amount> {
  if (quantity === null) return { ok: true, value: { mg: null, pieces: null } };
  const { densityMgPerMl: density } = material;
  const dimension = dimensionOf(quantity.unit);
  if (dimension === 'volume' && density === null) return refuse('unacceptable-value', field, withoutDensity);
  const value =
    dimension === 'volume' && density !== null ? ifInRange(() => weightOf(quantity.figure, quantity.unit, density)) : canonicalOf(quantity);
  if (value === undefined) return refuse('unacceptable-value', field, 'a smaller amount: this is more than a bakehouse can hold');
  if (value < 0) return refuse('unacceptable-value', field, 'zero or more');
  if (dimension === 'mass' && isFinerThanKept(quantity)) return refuse('unacceptable-value', field, wholeMilligrams);
  if (value === 0 && /[1-9]/.test(quantity.figure)) return refuse('unacceptable-value', field, 'nothing, or a milligram or more');
  switch (dimension) {
    case 'mass':
    case 'volume':
      return { ok: true, value: { mg: value, pieces: null } };
    case 'count':
      return value % 1000 === 0
        ? { ok: true, value: { mg: null, pieces: value / 1000 } }
        : refuse('unacceptable-value', field, 'whole pieces');
    default:
      return refuse('unacceptable-value', field, 'a weight, a volume or pieces');
  }
}

/** A metric weight that is no whole number of milligrams: to round it would change what was typed, and a little of it would be nothing. */
const isFinerThanKept = ({ figure, unit }: Observed): boolean => metric.has(unit) && !convertExact(figure, unit, 'mg').isInteger();
const metric: ReadonlySet<string> = new Set(['mg', 'g', 'kg', 't'] satisfies Unit[]);
const wholeMilligrams = 'whole milligrams, so at most three decimals of a gram or six of a kilogram';

/** The same amount where it is one of something: nothing of a lot neither came, nor went, nor was decided about. */
export const moreThanNothing = (amount: Outcome<Amount>, field: string): Outcome<Amount> =>
  amount.ok && (amount.value.mg === 0 || amount.value.pieces === 0)
    ? refuse(
        'unacceptable-value',
        field,
        'more than nothing; leave the line out where there was none, and the amount where nobody knows it',
      )
    : amount;

const withoutDensity = 'a weight; a volume once the specification of this material gives its density';
