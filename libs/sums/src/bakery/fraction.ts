import { Decimal } from 'decimal.js';

/** An exact ratio in lowest terms; the denominator is above zero. */
export interface Fraction {
  readonly num: bigint;
  readonly den: bigint;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** The ratio of two whole numbers. Throws RangeError on a zero divisor. */
export function ratio(num: bigint, den: bigint): Fraction {
  if (den === 0n) throw new RangeError('a ratio with a zero divisor');
  const sign = den < 0n ? -1n : 1n;
  const common = greatestCommonDivisor(num, den * sign);
  return { num: (num * sign) / common, den: (den * sign) / common };
}

/** The exact value of a decimal as it is written: 0.1 is one tenth. Throws if it is not a finite number. */
export function fraction(figure: number | string): Fraction {
  const written = new Decimal(figure);
  if (!written.isFinite()) throw new RangeError('a fraction of what is no finite number');
  const [whole = '0', part = ''] = written.toFixed().split('.');
  return ratio(BigInt(whole + part), 10n ** BigInt(part.length));
}

export const zero: Fraction = { num: 0n, den: 1n };
export const plus = (a: Fraction, b: Fraction): Fraction => ratio(a.num * b.den + b.num * a.den, a.den * b.den);
export const minus = (a: Fraction, b: Fraction): Fraction => ratio(a.num * b.den - b.num * a.den, a.den * b.den);
export const times = (a: Fraction, b: Fraction): Fraction => ratio(a.num * b.num, a.den * b.den);
export const over = (a: Fraction, b: Fraction): Fraction => ratio(a.num * b.den, a.den * b.num);
export const sumOf = (all: readonly Fraction[]): Fraction => all.reduce(plus, zero);

/** Orders two ratios exactly: below, at or above zero. */
export function compare(a: Fraction, b: Fraction): -1 | 0 | 1 {
  const [left, right] = [a.num * b.den, b.num * a.den];
  return left < right ? -1 : left > right ? 1 : 0;
}

/** The nearest multiple of 10^−places, half to even, as a number. */
export function rounded(a: Fraction, places: number): number {
  const whole = nearest(times(a, { num: 10n ** BigInt(places), den: 1n }));
  return Number(new Decimal(whole.toString()).div(new Decimal(10).pow(places)).toFixed());
}

/** The nearest whole number, half to even. */
export function nearest({ num, den }: Fraction): bigint {
  const floor = (num - (((num % den) + den) % den)) / den;
  const twice = 2n * (num - floor * den);
  return twice > den || (twice === den && floor % 2n !== 0n) ? floor + 1n : floor;
}

/** The decimal as text where it ends, null where it goes on for ever. */
export function endingDecimal({ num, den }: Fraction): string | null {
  let [rest, places] = [den, 0];
  while (rest % 10n === 0n) [rest, places] = [rest / 10n, places + 1];
  while (rest % 2n === 0n) [rest, places] = [rest / 2n, places + 1];
  while (rest % 5n === 0n) [rest, places] = [rest / 5n, places + 1];
  if (rest !== 1n) return null;
  const digits = ((num < 0n ? -num : num) * 10n ** BigInt(places)) / den;
  const text = digits.toString().padStart(places + 1, '0');
  const decimal = places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
  return num < 0n ? `-${decimal}` : decimal;
}
