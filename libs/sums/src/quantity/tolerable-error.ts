import { Decimal } from 'decimal.js';

// A context of our own: another module's settings must not change a legal limit.
export const Exact = Decimal.clone({ precision: 60, rounding: Decimal.ROUND_HALF_UP });
export type Exact = Decimal;

interface Row {
  readonly upTo: number;
  readonly percent?: string;
  readonly grams?: string;
}

// Bands in grams; at each edge both neighbours give the same figure.
const table: readonly Row[] = [
  { upTo: 50, percent: '9' },
  { upTo: 100, grams: '4.5' },
  { upTo: 200, percent: '4.5' },
  { upTo: 300, grams: '9' },
  { upTo: 500, percent: '3' },
  { upTo: 1000, grams: '15' },
  { upTo: 10_000, percent: '1.5' },
  { upTo: 15_000, grams: '150' },
  { upTo: Number.POSITIVE_INFINITY, percent: '1' },
];

export interface Tolerable {
  readonly tne: Decimal;
  readonly t1: Decimal;
  readonly t2: Decimal;
  readonly how: string;
}

/**
 * Tolerable negative error of a nominal quantity in grams, with T1 = nominal − TNE and T2 = nominal − 2·TNE, exact decimals.
 * Percentages are rounded up to 0.1 g. Undefined below 5 g, where the rule does not reach. SI 2006/659 and Directive 76/211/EEC.
 */
export function tolerableError(nominalGrams: number): Tolerable | undefined {
  const row = nominalGrams < 5 ? undefined : table.find(({ upTo }) => nominalGrams <= upTo);
  if (row === undefined) return undefined;
  const nominal = new Exact(nominalGrams);
  const tne = row.percent === undefined ? new Exact(row.grams ?? 0) : nominal.mul(row.percent).div(100).toDecimalPlaces(1, Exact.ROUND_UP);
  const how = row.percent === undefined ? `${row.grams ?? ''} g in its band` : `${row.percent} % of nominal, rounded up to 0.1 g`;
  return { tne, t1: nominal.minus(tne), t2: nominal.minus(tne.mul(2)), how };
}

/** Exact sum of weights in grams, as they are written in decimals: whole numbers, one sum for each number of decimals. */
export function exactSum(grams: readonly number[]): Decimal {
  let micrograms = 0; // a weight of 15 digits or fewer is exactly so many, and whole numbers below 2⁵³ add exactly
  const byPlaces = [0n];
  const add = (places: number, whole: bigint): void => {
    byPlaces[places] = (byPlaces[places] ?? 0n) + whole;
  };
  for (const weight of grams) {
    const whole = Math.round(weight * 1e6);
    if (whole <= 1e15 && whole / 1e6 === weight) micrograms += whole;
    else addWritten(weight, add);
    if (micrograms > 1e15) {
      add(6, BigInt(micrograms));
      micrograms = 0;
    }
  }
  add(6, BigInt(micrograms));
  return byPlaces.reduce((sum, whole = 0n, places) => sum.plus(new Exact(whole.toString()).div(new Exact(10).pow(places))), new Exact(0));
}

function addWritten(weight: number, add: (places: number, whole: bigint) => void): void {
  const text = String(weight);
  const written = text.includes('e') ? new Exact(text).toFixed() : text;
  const point = written.indexOf('.');
  if (point === -1) add(0, BigInt(written));
  else add(written.length - point - 1, BigInt(written.slice(0, point) + written.slice(point + 1)));
}
