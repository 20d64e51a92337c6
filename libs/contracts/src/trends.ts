import { unit } from '@bakehouse/kernel';
import { notTakenAnswer, pointLimit, pointMeasured, subjectType, verdict } from '@bakehouse/records';
import * as z from 'zod';
import { doubtView } from './doubt.js';

const instant = z.iso.datetime();
const day = z.iso.date();

/** What readings are put together by: where they were taken, what was made, or what they were taken with. */
export const trendBy = z.enum(['place', 'product', 'instrument']);
export type TrendBy = z.infer<typeof trendBy>;

export const trendSeries = z
  .object({
    by: trendBy,
    of: z
      .uuid()
      .meta({ description: 'the place, the product (of a dough or filling its formula, of goods their material) or the instrument' }),
    name: z.string(),
    parameter: z.string(),
    measured: pointMeasured,
    point: z.string().nullable().meta({ description: 'the key of the control point it was read for; null where it was for none' }),
    pointName: z.string().nullable(),
    unit: unit.meta({ description: 'of the newest reading; those of another are given in it as well' }),
    readings: z.int(),
    outside: z.int().meta({ description: 'recorded as outside the limit of their time' }),
    latest: instant,
  })
  .meta({ id: 'TrendSeries' });
export type TrendSeries = z.infer<typeof trendSeries>;

export const trendList = z
  .object({ zone: z.string(), from: day, until: day, series: z.array(trendSeries), leftOut: z.int() })
  .meta({ id: 'TrendList' });
export type TrendList = z.infer<typeof trendList>;

export const trendReading = z
  .object({
    id: z.uuid(),
    at: instant,
    figure: z.string(),
    unit,
    value: z.number().meta({ description: 'in the unit of the series, for drawing' }),
    limit: pointLimit.nullable(),
    verdict,
    doubt: doubtView.nullable(),
    subjectType,
    subject: z.uuid(),
    about: z.string().nullable(),
    instrument: z.string().nullable(),
    corrected: z.boolean(),
  })
  .meta({ id: 'TrendReading' });
export type TrendReading = z.infer<typeof trendReading>;

export const trendDay = z
  .object({
    day,
    readings: z.int(),
    lowest: z.number().nullable(),
    middle: z.number().nullable().meta({ description: 'the median' }),
    highest: z.number().nullable(),
    outside: z.int(),
    toConfirm: z.int().meta({ description: 'read with an instrument that cannot be trusted, or too close to the limit to call' }),
    notBelievable: z.int().meta({ description: 'counted nowhere else' }),
    notTaken: z.int(),
  })
  .meta({ id: 'TrendDay' });
export type TrendDay = z.infer<typeof trendDay>;

export const trendControl = z
  .object({
    readings: z.int(),
    centre: z.number(),
    lower: z.number(),
    upper: z.number(),
    signals: z
      .array(z.object({ rule: z.int(), name: z.string(), reading: z.uuid(), at: instant }))
      .meta({ description: 'of all eight tests; each at the reading that completes the pattern' }),
  })
  .meta({ id: 'TrendControl' });
export type TrendControl = z.infer<typeof trendControl>;

export const whyNoControl = z.enum(['too-few', 'all-alike', 'too-many']);

export const trend = z
  .object({
    zone: z.string(),
    dayStarts: z.string(),
    from: day,
    until: day,
    series: trendSeries,
    readings: z
      .array(trendReading)
      .meta({ description: 'in order of time; where there are too many, of each stretch the lowest and the highest' }),
    leftOut: z.int().meta({ description: 'between these; the days count them' }),
    days: z.array(trendDay),
    notTaken: z.array(z.object({ id: z.uuid(), at: instant, answer: notTakenAnswer, about: z.string().nullable() })),
    control: trendControl.nullable(),
    whyNoControl: whyNoControl.nullable(),
  })
  .meta({ id: 'Trend' });
export type Trend = z.infer<typeof trend>;
