import type { TrendReading } from '@bakehouse/contracts';
import { canConvert, convertExact, dayBounds, daysAfter, type Unit } from '@bakehouse/kernel';

export interface Span {
  readonly min: number;
  readonly max: number;
}
interface Bounds {
  readonly min: number | null;
  readonly max: number | null;
}

/** What a reading was judged by, in the unit of its series; null where that is no range of numbers. */
export function boundsOf({ limit }: Pick<TrendReading, 'limit'>, unit: Unit): Bounds | null {
  if (limit === null || limit.type === 'yes') return null;
  const own: Unit = limit.type === 'elapsed' ? 'min' : limit.unit;
  if (!canConvert(own, unit)) return null;
  const inUnit = (figure: string | null): number | null => (figure === null ? null : convertExact(figure, own, unit).toNumber());
  return limit.type === 'elapsed'
    ? { min: null, max: inUnit(String(limit.maxMinutes)) }
    : { min: inUnit(limit.min), max: inUnit(limit.max) };
}

/** Steps of 1, 2 or 5 times a power of ten, about so many of them, from just below the least to just above the greatest. */
export function ticksOf({ min, max }: Span, about = 6): number[] {
  const raw = Math.max(max - min, 1e-9) / about;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((f) => f * power >= raw) ?? 10) * power;
  const [first, last] = [Math.floor(min / step), Math.ceil(max / step)];
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** Where each day begins on the wall, or each so many of them that about six can be named. */
export function dayMarks(
  from: string,
  until: string,
  site: { readonly zone: string; readonly dayStarts: string },
): { day: string; at: number }[] {
  const all: { day: string; at: number }[] = [];
  for (let day = from; day <= until; day = daysAfter(day, 1))
    all.push({ day, at: Date.parse(dayBounds(day, site.zone, site.dayStarts).from) });
  const every = Math.ceil(all.length / 6);
  return all.filter((_, i) => i % every === 0);
}

export interface LimitStretch extends Bounds {
  readonly from: number;
  readonly until: number;
}

/** For how long which limit was used: from the first reading judged by it to the first judged by another, or to the end. */
export function limitStretches(readings: readonly TrendReading[], unit: Unit, ends: number): LimitStretch[] {
  const found: LimitStretch[] = [];
  let last: string | null = null;
  for (const r of readings) {
    const bounds = boundsOf(r, unit);
    const key = JSON.stringify(bounds);
    if (key === last) continue;
    const from = Date.parse(r.at);
    const before = found.pop();
    if (before) found.push(before.until > from ? { ...before, until: from } : before);
    if (bounds) found.push({ ...bounds, from, until: ends });
    last = key;
  }
  return found;
}
