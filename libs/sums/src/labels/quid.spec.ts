import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { quid } from './quid.js';

const asked = (body: unknown) => {
  const out = quid.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const two = (butter: number, flour: number) => [
  { name: 'butter', grams: butter },
  { name: 'flour', grams: flour },
];

describe('quid', () => {
  it('stays a percentage at exactly 100 % and turns to grams above it, judged before rounding', () => {
    expect(asked({ declared: two(60, 40), finishedGrams: 100 })).toMatchObject({
      form: 'percent',
      totalPercent: 100,
      text: 'butter 60 % and flour 40 %',
    });
    expect(asked({ declared: two(60, 40.0004), finishedGrams: 100 })).toMatchObject({ form: 'grams-per-100-g', totalPercent: 100.0004 });
    expect(asked({ declared: two(0.1, 0.2), finishedGrams: 0.3 })).toMatchObject({ form: 'percent', totalPercent: 100 });
    expect(asked({ declared: [{ name: 'milk', grams: 150 }], finishedGrams: 100 })).toMatchObject({
      form: 'grams-per-100-g',
      text: '150 g milk per 100 g',
      why: expect.stringContaining('alone'),
    });
  });

  it('takes what went in where nothing is lost, and says so where it gained', () => {
    expect(asked({ declared: two(25, 50), finishedGrams: 100, ingoingGrams: 100 })).toMatchObject({
      text: 'butter 25 % and flour 50 %',
      why: expect.stringContaining('what went in'),
    });
    expect(asked({ declared: two(25, 50), finishedGrams: 125, ingoingGrams: 100 })).toMatchObject({
      totalPercent: 75,
      cautions: expect.arrayContaining([expect.stringContaining('weighs more')]),
    });
  });

  it('does not depend on the order or the size of the bake', () => {
    const line = fc.record({ name: fc.constantFrom('a', 'b', 'c'), grams: fc.integer({ min: 1, max: 1000 }) });
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 2, max: 9 }),
        (declared, finishedGrams, times) => {
          const once = asked({ declared, finishedGrams });
          const more = asked({
            declared: declared.map((l) => ({ ...l, grams: l.grams * times })).reverse(),
            finishedGrams: finishedGrams * times,
          });
          if (typeof once === 'string' || typeof more === 'string') throw new Error('refused');
          expect([more.form, more.totalPercent, [...more.declared].reverse()]).toEqual([once.form, once.totalPercent, once.declared]);
        },
      ),
    );
  });

  it('refuses nothing declared, nothing finished and more declared than went in', () => {
    expect(asked({ declared: [], finishedGrams: 100 })).toMatch(/^declared: at least one/);
    for (const finishedGrams of [0, -1, NaN, Infinity])
      expect(asked({ declared: two(1, 1), finishedGrams })).toMatch(/^finishedGrams: .*from 0\.001 to/);
    expect(asked({ declared: two(-1, 1), finishedGrams: 5 })).toMatch(/^declared.0.grams: /);
    expect(asked({ declared: two(60, 50), finishedGrams: 100, ingoingGrams: 100 })).toMatch(/^ingoingGrams: at least/);
    expect(asked({ declared: Array(100_000).fill({ name: 'a', grams: 1 }), finishedGrams: 5 })).toMatch(/^declared: at most 100/);
  });
});
