import { canConvert, convertExact, quantityText, type Unit } from '@bakehouse/kernel';
import type { Limit } from '@bakehouse/records';

/** A value, the limit that it is judged by, and where both stand on one line. All in the limit's unit. */
export interface FromLimit {
  /** Such as `6.1 °C below the limit`. */
  readonly text: string;
  readonly value: number;
  readonly min: number | null;
  readonly max: number | null;
}

interface Figure {
  readonly figure: string;
  readonly unit: Unit;
}

/** How far a value is from the end of its limit that is nearest to it. A distance, and no verdict: that is given where readings are judged. */
export function fromLimit({ figure, unit }: Figure, limit: Limit): FromLimit | undefined {
  if (limit.type === 'yes') return undefined;
  const [min, max, of] = limit.type === 'elapsed' ? [null, String(limit.maxMinutes), 'min' as const] : [limit.min, limit.max, limit.unit];
  if (!canConvert(unit, of)) return undefined;
  const value = convertExact(figure, unit, of);
  const ends = [min, max].flatMap((e) => (e === null ? [] : [convertExact(e, of, of)]));
  const [nearest] = [...ends].sort((a, b) => value.minus(a).abs().cmp(value.minus(b).abs()));
  if (nearest === undefined) return undefined;
  const away = value.minus(nearest);
  const far = quantityText(away.abs().toDecimalPlaces(3).toString(), of);
  const text = away.isZero()
    ? 'exactly at the limit'
    : `${far} ${away.isNegative() ? 'below' : 'above'} the ${endName(ends.length, nearest.toNumber(), min)}`;
  return { text, value: value.toNumber(), min: min === null ? null : Number(min), max: max === null ? null : Number(max) };
}

/** With two limits, it is said which one. */
const endName = (ends: number, nearest: number, min: string | null): string =>
  ends < 2 ? 'limit' : min !== null && Number(min) === nearest ? 'lower limit' : 'upper limit';

/** Where a value and its allowed range stand on a line, in whole percents of its length from the left. */
export interface Scale {
  readonly value: number;
  readonly from: number;
  readonly to: number;
}

/** A line long enough for the value and the ends of the limit, with some more on both sides. A range without an end goes to the end of the line. */
export function scaleOf({ value, min, max }: Pick<FromLimit, 'value' | 'min' | 'max'>): Scale {
  const all = [value, min, max].filter((n) => n !== null);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const wide = Math.max(high - low, Math.abs(high) / 20, 1);
  const [left, right] = [low - 0.6 * wide, high + 0.6 * wide];
  const at = (n: number): number => Math.round(((n - left) / (right - left)) * 100);
  return { value: at(value), from: min === null ? 0 : at(min), to: max === null ? 100 : at(max) };
}
