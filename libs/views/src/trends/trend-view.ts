import type { DoubtView, Trend, TrendReading, TrendSeries } from '@bakehouse/contracts';
import { canConvert, convertExact, type Unit } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { byDay } from './by-day.js';
import { controlOf } from './control.js';
import { thinned } from './thinned.js';

type Reading = Row<'reading'>;
export interface ReadInSeries extends Pick<
  Reading,
  'id' | 'at' | 'figure' | 'unit' | 'judgedBy' | 'verdict' | 'subjectType' | 'subject' | 'instrument' | 'corrected'
> {
  readonly name: string;
}
export interface TrendMaterial {
  readonly site: { readonly zone: string; readonly dayStarts: string };
  readonly from: string;
  readonly until: string;
  readonly series: Pick<TrendSeries, 'by' | 'of' | 'parameter' | 'measured' | 'point'>;
  readonly pointName: string | null;
  /** In order of time. */
  readonly readings: readonly ReadInSeries[];
  readonly notTaken: readonly Pick<Row<'readingNotTaken'>, 'id' | 'at' | 'answer' | 'subject'>[];
  /** Of readings that cannot be trusted, by their ids. */
  readonly doubts: ReadonlyMap<string, DoubtView>;
  /** What subjects and instruments are called. */
  readonly names: ReadonlyMap<string, string>;
}

/** So many are drawn; a year of one reading in ten minutes is 52,000. */
const maxDrawn = 1_500;

/** The course of one series: its readings in the unit of the newest, its days, what was not taken, and how it usually varies. Null where nothing was read. Pure. */
export function trendOf({ site, from, until, series, readings, notTaken, doubts, names, pointName }: TrendMaterial): Trend | null {
  const newest = readings.at(-1);
  if (newest === undefined || newest.unit === null) return null;
  const all = readings.flatMap((r) => inUnit(r, newest.unit, doubts.get(r.id) ?? null, names));
  const believed = all.filter((r) => r.verdict !== 'not-believable');
  const drawn = thinned(
    all.map((r) => ({ ...r, matters: r.verdict !== 'within' && r.verdict !== 'no-limit' })),
    maxDrawn,
  );
  return {
    ...site,
    from,
    until,
    series: {
      ...series,
      pointName,
      name: newest.name,
      unit: newest.unit,
      readings: all.length,
      outside: all.filter((r) => r.verdict === 'outside').length,
      latest: newest.at,
    },
    readings: drawn.map(({ matters: _matters, ...r }) => r),
    leftOut: all.length - drawn.length,
    days: byDay(
      all.map((r) => ({ ...r, doubted: r.doubt !== null })),
      notTaken,
      site,
    ),
    notTaken: notTaken.map(({ id, at, answer, subject }) => ({ id, at, answer, about: names.get(subject) ?? null })),
    ...controlOf(believed.filter((r) => r.doubt === null)),
  };
}

/** None where a reading is of something else than the series, such as a mass among temperatures. */
function inUnit(r: ReadInSeries, unit: Unit | null, doubt: DoubtView | null, names: ReadonlyMap<string, string>): TrendReading[] {
  const { figure, unit: own, instrument, judgedBy, name: _name, ...rest } = r;
  if (figure === null || own === null || unit === null || !canConvert(own, unit)) return [];
  return [
    {
      ...rest,
      figure,
      unit: own,
      value: convertExact(figure, own, unit).toNumber(),
      limit: judgedBy,
      doubt,
      about: names.get(r.subject) ?? null,
      instrument: instrument === null ? null : (names.get(instrument) ?? null),
    },
  ];
}
