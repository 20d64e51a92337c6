import { workingSetOf, type ReworkRule } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { delivered, g, lead, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { ofFlour, reworkHouse as house, rule, said } from '../../../../test/fixtures/rework-house.js';
import { reworkTroubles } from './rework.js';
import type { PayloadFor } from '../kinds.js';

describe('what is put back', () => {
  it('counts as rework by the rule however its line was marked, and by its mark whatever it is', () => {
    const { book, mix, weigh, dough } = house({ sources: [] });
    const { book: other, ...o } = house({ maxTimes: 1, sources: [{ material: materials.tin, name: 'white tin 800 g' }] });
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [{ lot: dough(night('01:00')), grams: '10' }]);
    expect(said(book, make)).toEqual(['white dough: nothing may be put back here']);
    const [run, next] = [o.divide(o.dough(night('01:00')), night('01:30')), o.mix(night('02:00'))];
    o.weigh(next, night('02:05'), [
      { lot: o.dough(night('01:10')), grams: '10' },
      { lot: run, grams: '10', type: 'ingredient' },
    ]);
    expect(said(other, next)).toEqual(['white dough: only white tin 800 g may be put back here']);
  });

  it('is the house’s own, and a lot that nobody can name is not shown to be', () => {
    const { book, mix, weigh, dough } = house();
    const bought = uuid(0xe05);
    const delivery = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(bought, materials.whiteDough)] };
    book.record('delivery-received', delivery, { at: night('00:30') });
    const own = dough(night('01:00'));
    const [one, two, three] = [mix(night('02:00')), mix(night('02:10')), mix(night('02:20'))];
    weigh(one, night('02:05'), [{ lot: bought, grams: '10' }]);
    weigh(two, night('02:15'), [{ lot: null, grams: '10' }]);
    weigh(three, night('02:25'), [{ lot: own, grams: '10' }]);
    expect(said(book, one)).toEqual(['white dough: only what was made here may be put back; this came from outside']);
    expect(said(book, two)).toEqual(['white dough: nobody knows which lot it was, so not how old it is either']);
    expect(said(book, three)).toEqual([]);
    const unnamed = book.all('flow').find((f) => f.target === two)?.source ?? '';
    book.record('lot-identified', { lot: unnamed, code: null, same: own, delivery: null }, { at: night('03:00') });
    expect(said(book, two)).toEqual([]);
  });

  it('is nobody’s matter where the formula says nothing of it', () => {
    const { book, mix, weigh } = house(null);
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [{ lot: null, grams: null }]);
    expect([said(book, make), book.all('deviation')]).toEqual([[], []]);
  });
});

describe('how old it is', () => {
  it.each([
    // from 01:00 to 01:00 of the next day are 24 hours: exactly at the limit is within
    ['2026-11-25T01:00:00Z', []],
    ['2026-11-25T01:00:01Z', ['white dough: at most 24 hours old; this is 24 hours 1 minute']],
  ])('is counted from when it was begun, where nobody ended it: put in at %s', (at, expected) => {
    const { book, mix, weigh, dough } = house({ maxAgeHours: 24 });
    const [own, make] = [dough('2026-11-24T01:00:00Z'), mix(night('00:50'))];
    weigh(make, at, [{ lot: own, grams: '10' }]);
    expect(said(book, make)).toEqual(expected);
  });

  it('is counted from when it was ended, whichever is recorded first', () => {
    const { book, mix, weigh, dough } = house({ maxAgeHours: 24 });
    const [own, make] = [dough('2026-11-24T01:00:00Z'), mix(night('00:50'))];
    weigh(make, night('02:00'), [{ lot: own, grams: '10' }]);
    expect(said(book, make)).toHaveLength(1);
    book.record('make-ended', { make: own, quantity: null, how: 'weighed' }, { at: '2026-11-24T02:00:00Z' });
    expect(said(book, make)).toEqual([]);
  });

  it('of a bin is that of the oldest in it: what was kept over counts, what was emptied out does not', () => {
    const { book, mix, weigh, dough } = house({ maxAgeHours: 24 });
    const fill = (lot: string, at: string, kept: string | null): string =>
      book.record(
        'vessel-topped-up',
        {
          vessel: places.tub,
          material: materials.whiteDough,
          kept: kept === null ? null : g(kept),
          keptHow: 'estimated',
          added: [{ material: materials.whiteDough, lot, quantity: g('500'), how: 'weighed' }],
        },
        { at },
      ).id;
    const old = fill(dough('2026-11-23T06:00:00Z'), '2026-11-23T08:00:00Z', null);
    const kept = fill(dough('2026-11-24T20:00:00Z'), '2026-11-24T21:00:00Z', '200');
    const emptied = fill(dough('2026-11-24T22:00:00Z'), '2026-11-24T23:00:00Z', '0');
    const into = (lot: string, time: string): string[] => {
      const make = mix(night(time));
      weigh(make, night(time), [{ lot, grams: '10' }]);
      return said(book, make);
    };
    // what was filled at 08:00 on the 23rd is 26 hours old at 10:00 on the 24th
    const early = mix('2026-11-24T10:00:00Z');
    weigh(early, '2026-11-24T10:00:00Z', [{ lot: old, grams: '10' }]);
    expect(said(book, early)).toEqual(['white dough: at most 24 hours old; this is 26 hours']);
    // by 22:30 the second content still has 200 g of it: 38 h 30 min
    const late = mix('2026-11-24T22:30:00Z');
    weigh(late, '2026-11-24T22:30:00Z', [{ lot: kept, grams: '10' }]);
    expect(said(book, late)).toEqual(['white dough: at most 24 hours old; this is 38 hours 30 minutes']);
    expect(into(emptied, '02:00')).toEqual([]);
  });
});

describe('how often it was put back', () => {
  it('counts the steps behind it, this one too', () => {
    const { book, mix, weigh, dough } = house({ maxTimes: 2 });
    const next = (lot: string, time: string): string => {
      const make = mix(night(time));
      weigh(make, night(time), [ofFlour('1000'), { lot, grams: '10' }]);
      return make;
    };
    const first = dough(night('01:00'));
    const once = next(first, '01:30');
    const two = next(once, '02:00');
    const three = next(two, '02:30');
    expect([once, two, three].map((make) => said(book, make))).toEqual([
      [],
      [],
      ['white dough: put back at most 2 times; this is once more'],
    ]);
  });

  it('hears of a step far behind that is recorded late', () => {
    const { book, mix, weigh, dough, divide } = house({ maxTimes: 1 });
    const first = dough(night('01:00'));
    const second = dough(night('01:10'));
    const run = divide(second, night('01:40'));
    const make = mix(night('02:00'));
    weigh(make, night('02:05'), [{ lot: run, grams: '10' }]);
    expect(said(book, make)).toEqual([]);
    weigh(second, night('01:20'), [{ lot: first, grams: '10' }]);
    expect(said(book, make)).toEqual(['white tin 800 g: put back at most 1 time; this is once more']);
  });
});

describe('what is against the rule', () => {
  it('holds what was made of it until somebody decides by its deviation, and is there again when an amount is corrected', () => {
    const { book, mix, weigh, dough, divide } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    const weighed = weigh(make, night('02:05'), [ofFlour('1000'), { lot: dough(night('01:00')), grams: '140' }]);
    const run = divide(make, night('02:30'), 1);
    expect([said(book, make), said(book, run)].map((s) => s.length)).toEqual([1, 1]);
    const [deviation] = book.all('deviation');
    const accepted: PayloadFor<'disposition-decided'> = {
      deviation: deviation?.id ?? '',
      lot: null,
      disposition: 'accepted-for-use',
      covers: 'what-came-of-it',
      concerns: [],
      quantity: null,
    };
    book.record('disposition-decided', accepted, { at: night('03:00'), person: lead });
    expect([said(book, make), said(book, run)]).toEqual([[], []]);
    const back = book.all('flow').find((f) => f.target === make && f.type === 'rework')?.source ?? '';
    weigh(make, night('02:05'), [ofFlour('1000'), { lot: back, grams: '200' }], weighed);
    expect(said(book, run)).toEqual(['white dough: at most 10 % of the flour; this makes 20 %']);
    weigh(make, night('02:05'), [ofFlour('1000'), { lot: back, grams: '90' }], weighed);
    expect(said(book, run)).toEqual([]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is told by a correction that makes it so, with what else is in the make, and goes when the line is withdrawn', () => {
    const { book, mix, weigh, dough } = house({ maxFlourBp: 1_000 });
    const make = mix(night('02:00'));
    const flours = weigh(make, night('02:05'), [ofFlour('1000')]);
    const back = weigh(make, night('02:06'), [{ lot: dough(night('01:00')), grams: '100' }]);
    expect(book.all('deviation')).toEqual([]);
    // 100 g of 800 g = 12.5 %
    weigh(make, night('02:05'), [ofFlour('800')], flours);
    const what = 'white dough: at most 10 % of the flour; this makes 12.5 %';
    expect([said(book, make), book.all('deviation').map((d) => d.summary)]).toEqual([[what], [what]]);
    book.record('entry-withdrawn', {}, { at: night('02:40'), corrects: back, words: { reason: 'another dough' } });
    expect(said(book, make)).toEqual([]);
  });

  it('is the same whatever order its records come in', () => {
    const limits = { maxFlourBp: 1_000, maxAgeHours: 24, maxTimes: 1 };
    const told = (order: readonly number[], grams: number): string[][] => {
      const { book, mix, weigh, dough, divide } = house(limits);
      const [old, second, third] = [dough('2026-11-24T00:00:00Z'), mix(night('01:00')), mix(night('02:00'))];
      const steps = [
        () => weigh(second, night('01:05'), [{ lot: old, grams: String(grams) }]),
        () => weigh(second, night('01:06'), [ofFlour('1000')]),
        () => weigh(third, night('02:05'), [ofFlour('700')]),
        () => weigh(third, night('02:06'), [{ lot: second, grams: '100' }]),
        () => book.record('make-ended', { make: old, quantity: null, how: 'weighed' }, { at: '2026-11-24T01:06:00Z' }).id,
        () => divide(third, night('02:30'), 1),
      ];
      for (const i of order) steps[i]?.();
      return [second, third].map((make) => said(book, make));
    };
    const all = [0, 1, 2, 3, 4, 5];
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length }), fc.integer({ min: 80, max: 120 }), (order, grams) => {
        expect(told(order, grams)).toEqual(told(all, grams));
      }),
      { numRuns: 40 },
    );
  });

  it('is never less by a stricter rule', () => {
    const limit = (max: number) => fc.option(fc.integer({ min: 1, max }));
    const some = fc.record({
      maxFlourBp: limit(3_000),
      maxAgeHours: limit(48),
      maxTimes: limit(3),
      sources: fc.subarray([...rule.sources]),
    });
    const tighter = (a: number | null, b: number | null): number | null => (a === null ? b : b === null ? a : Math.min(a, b));
    const found = (of: ReworkRule): string[] => {
      const { book, mix, weigh, dough } = house(of);
      const [old, second, third] = [dough('2026-11-24T00:00:00Z'), mix(night('01:00')), mix(night('02:00'))];
      weigh(second, night('01:05'), [ofFlour('1000'), { lot: old, grams: '120' }]);
      weigh(third, night('02:05'), [ofFlour('1000'), { lot: second, grams: '80' }, { lot: null, grams: null }]);
      return [second, third].flatMap((make) =>
        reworkTroubles(workingSetOf(book.snapshot()), make).map((t) => `${make} ${t.type} ${t.name}`),
      );
    };
    fc.assert(
      fc.property(some, some, (a, b) => {
        const both = {
          maxFlourBp: tighter(a.maxFlourBp, b.maxFlourBp),
          maxAgeHours: tighter(a.maxAgeHours, b.maxAgeHours),
          maxTimes: tighter(a.maxTimes, b.maxTimes),
          sources: a.sources.filter((s) => b.sources.includes(s)),
        };
        expect(found(both)).toEqual(expect.arrayContaining(found(a)));
      }),
      { numRuns: 40 },
    );
  });
});
