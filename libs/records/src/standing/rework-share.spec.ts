import { describe, expect, it } from '@jest/globals';
import { lead, materials, night } from '../../../../test/fixtures/bakehouse.js';
import { ofFlour, reworkHouse as house, said } from '../../../../test/fixtures/rework-house.js';

describe('how much is put back', () => {
  it.each([
    // 100 g / 1,000 g = 0.1 = 10 %: exactly at the limit is within
    ['1000', '100', []],
    // 100.001 g / 1,000 g = 10.0001 %, said as 10.01 % since it is rounded up
    ['1000', '100.001', ['white dough: at most 10 % of the flour; this makes 10.01 %']],
    // 140 g / 1,000 g = 14 %
    ['1000', '140', ['white dough: at most 10 % of the flour; this makes 14 %']],
    // 140 g / 1,400 g = 10 %
    ['1400', '140', []],
  ])('is a share of the flour that is in: %s g of flour, %s g put back', (flourGrams, back, expected) => {
    const { book, mix, weigh, dough } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [ofFlour(flourGrams), { lot: dough(night('01:00')), grams: back }]);
    expect(said(book, make)).toEqual(expected);
    expect(book.all('deviation').map((d) => [d.type, d.subject, d.summary, d.holds])).toEqual(
      expected.map((what) => ['rework-against-rule', make, what, false]),
    );
  });

  it('of all lines together, and the salt is no flour', () => {
    const { book, mix, weigh, dough } = house({ maxFlourBp: 1_000 });
    const [make, other] = [mix(night('02:00')), dough(night('01:00'))];
    weigh(make, night('02:05'), [
      ofFlour('1000'),
      { lot: other, grams: '60' },
      { lot: null, grams: '500', material: materials.salt, type: 'ingredient' },
    ]);
    expect(said(book, make)).toEqual([]);
    // 60 g + 50 g = 110 g of 1,000 g = 11 %
    weigh(make, night('02:06'), [{ lot: other, grams: '50' }]);
    expect(said(book, make)).toEqual(['white dough: at most 10 % of the flour; this makes 11 %']);
  });

  it('is judged by what is planned while flour may still come, and by what is in once something was taken', () => {
    const { book, mix, weigh, dough, divide } = house({ maxFlourBp: 1_000 });
    // as the formula is written, 41,450 g with 25,000 g of flour: a tenth of that is 2,500 g
    const make = mix(night('02:00'), 41_450_000);
    weigh(make, night('02:05'), [{ lot: dough(night('01:00')), grams: '2500' }]);
    expect([said(book, make), book.all('deviation')]).toEqual([[], []]);
    // 20,000 g of flour went in: 2,500 / 20,000 = 12.5 %
    weigh(make, night('02:06'), [ofFlour('20000')]);
    expect(said(book, make)).toEqual([]);
    divide(make, night('02:30'));
    expect(said(book, make)).toEqual(['white dough: at most 10 % of the flour; this makes 12.5 %']);
  });

  it('says nothing while no flour is in and none was planned, and that nobody can say it once the dough is used', () => {
    const { book, mix, weigh, dough, divide } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [{ lot: dough(night('01:00')), grams: '250' }]);
    expect(said(book, make)).toEqual([]);
    divide(make, night('02:30'));
    expect(said(book, make)).toEqual(['white dough: at most 10 % of the flour; how much this makes cannot be said']);
  });

  it.each([
    // nobody weighed it: it cannot be shown to be within
    [[ofFlour('1000')], null, ['white dough: at most 10 % of the flour; how much this makes cannot be said']],
    // 90 g of at least 1,000 g is at most 9 %, however much the other flour was
    [[ofFlour('1000'), ofFlour(null)], '90', []],
    // 140 g of at least 1,000 g is at most 14 %, perhaps less
    [[ofFlour('1000'), ofFlour(null)], '140', ['white dough: at most 10 % of the flour; this may make 14 %']],
  ])('is on the safe side where an amount is not known', (flours, grams, expected) => {
    const { book, mix, weigh, dough } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [...flours, { lot: dough(night('01:00')), grams }]);
    expect(said(book, make)).toEqual(expected);
  });

  it.each([
    // two pieces weigh at most what they were scaled at: 2 × 910 g = 1,820 g, a tenth of 18,200 g
    ['18200', []],
    ['18199', ['white tin 800 g: at most 10 % of the flour; this may make 10.01 %']],
  ])('by the piece weighs at most what it was scaled at: %s g of flour', (grams, expected) => {
    const { book, mix, weigh, dough, divide } = house({ maxFlourBp: 1_000 });
    const run = divide(dough(night('01:00')), night('01:30'));
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [ofFlour(grams)]);
    const pieces = { material: materials.tin, lot: run, quantity: { figure: '2', unit: 'piece' }, how: 'counted', type: 'rework' } as const;
    book.record('weighed-in', { make, lines: [pieces] }, { at: night('02:06') });
    expect(said(book, make)).toEqual(expected);
  });

  it('counts what was allowed instead of the flour', () => {
    const { book, mix, weigh, dough, divide } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [
      { lot: null, grams: '1000', material: materials.oil, type: 'ingredient' },
      { lot: dough(night('01:00')), grams: '100' },
    ]);
    divide(make, night('02:30'), 1);
    expect(said(book, make)).toHaveLength(1);
    const change = { make, material: materials.flour, instead: materials.oil };
    book.record('one-off-changed', change, { at: night('02:04'), person: lead, words: { change: 'for this test' } });
    expect(said(book, make)).toEqual([]);
  });
});
