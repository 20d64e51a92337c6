import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { unitTable, type UnitDefinition } from './unit-table.js';

/** Decimals wide enough that no product of a figure (to 40 digits) and two factors is ever rounded. */
const Wide = Decimal.clone({ precision: 100, rounding: Decimal.ROUND_HALF_EVEN, toExpNeg: -200, toExpPos: 200 });

export type Unit = keyof typeof unitTable;
export type Dimension = UnitDefinition['dimension'];
export interface Quantity {
  readonly figure: string;
  readonly unit: Unit;
}

function isUnit(name: string): name is Unit {
  return Object.hasOwn(unitTable, name);
}

export const unitNames: readonly Unit[] = Object.keys(unitTable).filter(isUnit);
export const temperatureUnits = ['degC', 'degF', 'K'] as const satisfies readonly Unit[];
/** The unit of a recorded value. */
export const unit = z.enum(unitNames);

interface Factor {
  readonly dimension: Dimension;
  readonly num: Decimal;
  readonly den: Decimal;
  readonly offset: Decimal;
}
const wide = (definition: UnitDefinition): Factor => ({
  dimension: definition.dimension,
  num: new Wide(definition.num),
  den: new Wide(definition.den ?? 1),
  offset: new Wide(definition.offset ?? 0),
});
const factors = new Map<Unit, Factor>(unitNames.map((name) => [name, wide(unitTable[name])]));

function factorOf(name: Unit): Factor {
  const factor = factors.get(name);
  if (factor === undefined) throw new RangeError(`no such unit: ${name}`);
  return factor;
}

/** What a unit measures. */
export function dimensionOf(name: Unit): Dimension {
  return unitTable[name].dimension;
}

/** The units that measure one thing, smallest system first as listed. */
export function unitsOf(dimension: Dimension): Unit[] {
  return unitNames.filter((name) => dimensionOf(name) === dimension);
}

/** True where a figure in `from` can be given in `to`: they measure the same thing. Mass and volume do not: that needs a density. */
export function canConvert(from: Unit, to: Unit): boolean {
  return dimensionOf(from) === dimensionOf(to);
}

function pair(from: Unit, to: Unit): { f: Factor; t: Factor } {
  if (!canConvert(from, to)) throw new RangeError(`${from} measures ${dimensionOf(from)}, ${to} measures ${dimensionOf(to)}`);
  return { f: factorOf(from), t: factorOf(to) };
}

/**
 * The figure in another unit: exact where that decimal ends, else to 100 significant digits (°F to °C, kg to lb).
 * Throws RangeError where the units measure different things: ask `canConvert` first. Factors: NIST SP 811, HB 44.
 */
export function convertExact(figure: string | number, from: Unit, to: Unit): Decimal {
  const { f, t } = pair(from, to);
  return new Wide(figure).plus(f.offset).times(f.num).times(t.den).div(f.den.times(t.num)).minus(t.offset);
}

/** A difference in another unit, so without the offset: a friction factor of 35 °F is 19.44 °C. Throws as `convertExact` does. */
export function convertDifference(figure: string | number, from: Unit, to: Unit): Decimal {
  const { f, t } = pair(from, to);
  return new Wide(figure).times(f.num).times(t.den).div(f.den.times(t.num));
}

/**
 * The canonical safe integer of a figure, rounded half to even: mg, µl, thousandths of a degree C, ms, µm, Pa, thousandths of a piece, a percent,
 * a pH, a water activity. Throws RangeError beyond ±2⁵³ or for what is no finite number.
 */
export function canonical(figure: string, name: Unit): number {
  const { num, den, offset } = factorOf(name);
  return safeWhole(new Wide(figure).plus(offset).times(num).div(den), `${figure} ${name}`);
}

/** The milligrams of a volume, rounded once, half to even: µl × mg a ml ÷ 1000. Throws as `canonical` does, and for what is no volume. */
export function weightOf(figure: string, name: Unit, densityMgPerMl: number): number {
  const { dimension, num } = factorOf(name);
  if (dimension !== 'volume') throw new RangeError(`${name} measures ${dimension}, no volume`);
  return safeWhole(new Wide(figure).times(num).times(densityMgPerMl).div(1000), `${figure} ${name}`);
}

function safeWhole(exact: Decimal, what: string): number {
  const whole = exact.toDecimalPlaces(0).toNumber();
  if (!Number.isSafeInteger(whole)) throw new RangeError(`${what} has no canonical integer`);
  return whole === 0 ? 0 : whole; // never −0
}

/** Orders two quantities of one dimension without any rounding: −1, 0 or 1. Throws as `convertExact` does, and for what is no number. */
export function compareExact(a: Quantity, b: Quantity): -1 | 0 | 1 {
  const { f, t } = pair(a.unit, b.unit);
  const left = new Wide(a.figure).plus(f.offset).times(f.num).times(t.den);
  const right = new Wide(b.figure).plus(t.offset).times(t.num).times(f.den);
  if (left.isNaN() || right.isNaN()) throw new RangeError('what is no number has no order');
  return left.lt(right) ? -1 : left.gt(right) ? 1 : 0;
}

/**
 * Milligrams for reading: kilograms from 1000 g (to 1 g), grams (to 0.1 g, below 10 g to 0.01 g); or pounds and ounces (to 0.1 oz, below 1 oz to
 * 0.01 oz). For eyes, not for sums: it rounds half to even.
 */
export function formatGrams(mg: number, style: 'metric' | 'pounds-and-ounces'): string {
  const size = new Wide(mg).abs();
  const text = style === 'metric' ? metricText(size) : poundsText(size);
  return mg < 0 ? `\u2212${text}` : text;
}

function metricText(mg: Decimal): string {
  const grams = mg.div(1000);
  if (grams.gte('999.95')) return `${grams.div(1000).toDecimalPlaces(3).toString()} kg`;
  return `${grams.toDecimalPlaces(grams.lt(10) ? 2 : 1).toString()} g`;
}

function poundsText(mg: Decimal): string {
  const ounces = mg.div(factorOf('oz').num);
  if (ounces.lt(1)) return `${ounces.toDecimalPlaces(2).toString()} oz`;
  const shown = ounces.toDecimalPlaces(1); // rounded before it is split, so that 15.96 oz reads 1 lb and never 0 lb 16 oz
  const pounds = shown.divToInt(16);
  const rest = shown.minus(pounds.times(16));
  const parts = [...(pounds.isZero() ? [] : [`${pounds.toString()} lb`]), ...(rest.isZero() ? [] : [`${rest.toString()} oz`])];
  return parts.join(' ');
}
