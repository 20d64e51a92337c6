import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { loosenedBy } from './loosened.js';
import { looseningText } from './loosening-text.js';
import { planApproved } from './plan-approved.js';
import { planContent, type PlanContent, type PointContent } from '../rows/plan-content.js';
import { testId } from '../../../../test/support/try-kind.js';

const example = planContent.parse(planApproved.examples[0].content);
const plan = (...points: Partial<PointContent>[]): PlanContent => ({
  ...example,
  points: example.points.flatMap((p) => points.map((change) => ({ ...p, ...change }))),
});
const range = (min: string | null, max: string | null, unit: 'degC' | 'degF' | 'g' = 'degC') => ({
  type: 'range' as const,
  min,
  max,
  unit,
});
const cool = (maxMinutes: number, fromCelsius: string | null = '63', toCelsius: string | null = '8') => ({
  type: 'elapsed' as const,
  maxMinutes,
  fromCelsius,
  toCelsius,
});
const said = (before: PlanContent, after: PlanContent): string[] =>
  loosenedBy(before, after).flatMap(({ name, changes }) => changes.map((c) => `${name}: ${looseningText(c)}`));
const [pork, leek, tart] = [testId(0xa1), testId(0xa2), testId(0xa3)];

describe('what a plan lets through that the plan in force does not', () => {
  it.each<[string, Partial<PointContent>, Partial<PointContent>, string]>([
    ['a lower minimum', { limit: range('75', null) }, { limit: range('40', null) }, '75 °C or more → 40 °C or more'],
    ['a minimum in another unit', { limit: range('75', null) }, { limit: range('166', null, 'degF') }, '75 °C or more → 166 °F or more'],
    ['a higher maximum', { limit: range(null, '5') }, { limit: range(null, '8') }, '5 °C or less → 8 °C or less'],
    ['an end that is gone', { limit: range('75', '99') }, { limit: range('75', null) }, '75 to 99 °C → 75 °C or more'],
    [
      'more minutes',
      { measured: 'elapsed', limit: cool(90) },
      { measured: 'elapsed', limit: cool(120) },
      'at most 90 min, from 63 to 8 °C → at most 120 min, from 63 to 8 °C',
    ],
    [
      'a clock that starts later',
      { measured: 'elapsed', limit: cool(90) },
      { measured: 'elapsed', limit: cool(90, '50') },
      'at most 90 min, from 63 to 8 °C → at most 90 min, from 50 to 8 °C',
    ],
    [
      'a clock that stops earlier',
      { measured: 'elapsed', limit: cool(90) },
      { measured: 'elapsed', limit: cool(90, '63', '20') },
      'at most 90 min, from 63 to 8 °C → at most 90 min, from 63 to 20 °C',
    ],
    [
      'another type of limit',
      { measured: 'elapsed', limit: cool(90, null, null) },
      { measured: 'elapsed', limit: { type: 'yes' } },
      'at most 90 min → must be yes',
    ],
    ['a shorter time held', { holdSeconds: '30' }, { holdSeconds: '5' }, 'held 30 s → held 5 s'],
    ['no time held', { holdSeconds: '30' }, { holdSeconds: null }, 'held 30 s → not held'],
    ['a point made less than critical', { class: 'ccp' }, { class: 'oprp' }, 'CCP → OPRP'],
    ['a hold taken away', { ifOutside: 'hold' }, { ifOutside: 'correct' }, 'if outside: hold → correct'],
    ['a hold where it is missed taken away', { ifNotMonitored: 'hold' }, { ifNotMonitored: 'record' }, 'if not monitored: hold → record'],
    ['less often', { frequency: 'each-load' }, { frequency: 'first-load-of-day' }, 'each load → first load of day'],
    ['what is not surely as often', { frequency: 'each-batch' }, { frequency: 'each-make' }, 'each batch → each make'],
    [
      'measured elsewhere',
      { measured: 'core' },
      { measured: 'air' },
      'core temperature, core, step: bake → core temperature, air, step: bake',
    ],
    [
      'another question',
      { measured: 'yes-no', limit: { type: 'yes' }, parameter: 'clean' },
      { measured: 'yes-no', limit: { type: 'yes' }, parameter: 'tidy' },
      'clean, yes no, step: bake → tidy, yes no, step: bake',
    ],
    ['for some only', { formulas: [], products: [] }, { products: [pork] }, 'for everything with its step → only for some'],
    ['no longer for one', { products: [pork, leek] }, { products: [pork] }, 'no longer for 1 that it was for'],
  ])('%s', (_what, before, after, text) => {
    expect(said(plan(before), plan(after))).toEqual([`Core of the coldest loaf: ${text}`]);
  });

  it.each<[string, Partial<PointContent>, Partial<PointContent>]>([
    ['nothing', {}, {}],
    ['a higher minimum', { limit: range('75', null) }, { limit: range('80', null) }],
    ['the same in another unit', { limit: range('75', null) }, { limit: range('167', null, 'degF') }],
    [
      'fewer minutes, a clock that starts earlier',
      { measured: 'elapsed', limit: cool(90) },
      { measured: 'elapsed', limit: cool(80, '70', '5') },
    ],
    ['more often', { frequency: 'first-load-of-day' }, { frequency: 'each-load' }],
    ['for more', { products: [pork] }, { products: [] }],
    ['its words', { name: 'Core' }, { name: 'Core of the pie', correctiveAction: 'Bake on', basis: 'Another study', parameter: 'core' }],
    [
      'a process check that holds nothing',
      { class: 'process-check', ifOutside: 'note', limit: range('24', '26') },
      { class: 'process-check', ifOutside: 'note', limit: range('20', '30') },
    ],
  ])('is not: %s', (_what, before, after) => {
    expect(said(plan(before), plan(after))).toEqual([]);
  });

  it('a control point that is gone, unless others as strict stand in its place', () => {
    const before = plan({ key: 'tin' }, { key: 'pie', name: 'Core, pork pie', products: [pork, leek], limit: range('75', null) });
    const strict = { key: 'other', products: [leek], limit: range('76', null) };
    const without = plan({ key: 'tin', products: [tart] }, { key: 'pork', products: [pork], limit: range('75', null) });
    expect(said(before, plan({ key: 'tin', products: [tart] }))).toEqual([
      'Core of the coldest loaf: for everything with its step → only for some',
      'Core, pork pie: 75 °C or more → no control point',
    ]);
    expect(
      said(plan({ key: 'pie', products: [pork, leek] }), plan({ key: 'a', products: [pork] }, { key: 'b', products: [leek, tart] })),
    ).toEqual([]);
    expect(
      said({ ...before, points: before.points.slice(1) }, { ...without, points: [...without.points, ...plan(strict).points] }),
    ).toEqual([]);
    expect(said({ ...before, points: before.points.slice(1) }, without)).toEqual(['Core, pork pie: 75 °C or more → no control point']);
  });

  it('food past its life that is no longer on hold', () => {
    const milder = { ...example, pastLife: { opened: 'warn' as const, madeHere: 'warn' as const } };
    expect(said(example, milder)).toEqual(['Past the life of what was made here: on hold → only warned of']);
    expect(said(milder, example)).toEqual([]);
  });

  it('a range is loosened exactly where some value passes that did not', () => {
    const end = fc.option(fc.integer({ min: -40, max: 40 }), { nil: null });
    const ends = fc.tuple(end, end).filter(([a, b]) => (a !== null || b !== null) && (a === null || b === null || a <= b));
    const passes = ([min, max]: readonly [number | null, number | null], v: number): boolean =>
      (min === null || v >= min) && (max === null || v <= max);
    const values = Array.from({ length: 103 }, (_, i) => i - 51);
    const text = (of: number | null): string | null => (of === null ? null : String(of));
    fc.assert(
      fc.property(ends, ends, (before, after) => {
        const more = values.some((v) => passes(after, v) && !passes(before, v));
        const found = loosenedBy(
          plan({ limit: range(text(before[0]), text(before[1])) }),
          plan({ limit: range(text(after[0]), text(after[1])) }),
        );
        expect(found.length > 0).toBe(more);
      }),
    );
  });

  it('whatever is changed and changed back, one of the two loosens it, or neither changes what passes', () => {
    const some = fc.record({
      class: fc.constantFrom<PointContent['class'][]>('ccp', 'oprp'),
      ifOutside: fc.constantFrom<PointContent['ifOutside'][]>('correct', 'hold'),
      frequency: fc.constantFrom<PointContent['frequency'][]>('each-load', 'each-make', 'each-batch', 'twice-a-day', 'each-day'),
      holdSeconds: fc.constantFrom('30', '60', null),
    });
    fc.assert(
      fc.property(some, some, (a, b) => {
        const same = a.class === b.class && a.ifOutside === b.ifOutside && a.frequency === b.frequency && a.holdSeconds === b.holdSeconds;
        expect(loosenedBy(plan(a), plan(b)).length + loosenedBy(plan(b), plan(a)).length > 0).toBe(!same);
      }),
    );
  });
});
