import type { Trend, TrendDay, TrendReading } from '@bakehouse/contracts';
import { dayBounds } from '@bakehouse/kernel';
import { boundsOf, dayMarks, limitStretches, ticksOf, type LimitStretch } from './scale';

export const size = { width: 940, height: 300, left: 52, right: 150, top: 12, bottom: 34 } as const;
/** With more readings than this on a picture its days are drawn, each from the lowest to the highest. */
const maxPoints = 160;

export interface Layout {
  readonly x: (at: number) => number;
  readonly y: (value: number) => number;
  readonly ticks: readonly number[];
  readonly marks: readonly { readonly day: string; readonly at: number }[];
  readonly limits: readonly LimitStretch[];
  readonly points: readonly TrendReading[];
  readonly days: readonly (TrendDay & { readonly begins: number; readonly ends: number })[];
}

export const isBelieved = (r: TrendReading): boolean => r.verdict !== 'not-believable';

/** Where everything of a course is drawn. What cannot be right has no place on the scale, or it would flatten all others. Pure. */
export function layoutOf(trend: Trend): Layout {
  const { zone, dayStarts, from, until, series, control } = trend;
  const begins = Date.parse(dayBounds(from, zone, dayStarts).from);
  const ends = Date.parse(dayBounds(until, zone, dayStarts).until);
  const shown = trend.readings.filter(isBelieved);
  const bounds = shown.flatMap((r) => {
    const of = boundsOf(r, series.unit);
    return [of?.min ?? null, of?.max ?? null].filter((v) => v !== null);
  });
  const values = [...shown.map((r) => r.value), ...bounds, ...(control === null ? [] : [control.lower, control.upper])];
  const [min, max] = [Math.min(...values), Math.max(...values)];
  const room = (max - min || 1) * 0.06;
  const ticks = ticksOf(values.length === 0 ? { min: 0, max: 1 } : { min: min - room, max: max + room });
  const [low, high] = [ticks[0] ?? 0, ticks.at(-1) ?? 1];
  const [wide, tall] = [size.width - size.left - size.right, size.height - size.top - size.bottom];
  const many = shown.length + trend.leftOut > maxPoints;
  return {
    x: (at) => size.left + ((at - begins) / (ends - begins)) * wide,
    y: (value) => size.top + ((high - value) / (high - low)) * tall,
    ticks,
    marks: dayMarks(from, until, { zone, dayStarts }),
    limits: limitStretches(shown, series.unit, ends),
    points: many ? shown.filter((r) => r.verdict !== 'within' && r.verdict !== 'no-limit') : shown,
    days: many ? trend.days.map((d) => ({ ...d, ...edges(d.day, zone, dayStarts) })) : [],
  };
}

function edges(day: string, zone: string, dayStarts: string): { begins: number; ends: number } {
  const { from, until } = dayBounds(day, zone, dayStarts);
  return { begins: Date.parse(from), ends: Date.parse(until) };
}
