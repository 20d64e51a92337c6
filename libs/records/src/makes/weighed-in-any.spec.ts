import { describe, expect, it } from '@jest/globals';
import { workingSetOf } from '../base/snapshot.js';
import { leftOf } from '../standing/left-of.js';
import { movementsOf } from '../standing/lot-rows.js';
import { concernsOf } from '../standing/standings.js';
import { delivered, g, materials, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { lot, troubles, withFlour, type Line } from '../../../../test/fixtures/with-flour.js';

describe('weighing in any of several lots, where nobody knows which', () => {
  const other = uuid(0xe02);
  const withTwo = () => {
    const n = withFlour();
    n.book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(other, materials.flour)] },
      { at: night('01:10') },
    );
    return { ...n, any: n.line({ orLots: [other] }) };
  };

  it('draws one flow a lot, all of one group and none of them certain', () => {
    const { book, make, weigh, any, line } = withTwo();
    weigh([any, line({ quantity: g('100'), type: 'late-addition' })]);
    const flows = book.all('flow');
    expect(flows.map((f) => [f.source, f.target, f.mg, f.certain])).toEqual([
      [lot, make, 2_000_000, false],
      [other, make, 2_000_000, false],
      [lot, make, 100_000, true],
    ]);
    expect(flows[0]?.anyOf).not.toBeNull();
    expect(flows.map((f) => f.anyOf)).toEqual([flows[0]?.anyOf, flows[0]?.anyOf, null]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('weighs once in every sum of the make', () => {
    const { book, make, weigh, any } = withTwo();
    weigh([any]);
    const left = { make, quantity: g('1900'), how: 'weighed' as const };
    expect(book.record('make-ended', left, { at: night('02:30') }).outcome).toMatchObject({ inMg: 2_000_000, lostMg: 100_000 });
    const runs = [{ run: uuid(0xe10), product: materials.tin, heads: null, pieces: 3, scaling: g('1000') }];
    expect(
      book.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: night('02:40') }).outcome.sum,
    ).toMatchObject({ inMg: 2_000_000 });
    expect((concernsOf(workingSetOf(book.snapshot()), [make]).get(make) ?? []).map((r) => r.concern.type)).toEqual(['more-out-than-in']);
    const into = movementsOf(workingSetOf(book.snapshot()), make, null, { oneOfSeveral: 'left-out' }).into;
    expect(into.map((m) => m.mg)).toEqual([2_000_000]);
  });

  it('comes off none of them for certain', () => {
    const { book, weigh, any } = withTwo();
    weigh([any]);
    const state = workingSetOf(book.snapshot());
    const left = (oneOfSeveral: 'unknown' | 'left-out') =>
      [lot, other].map((of) => leftOf(25_000_000, movementsOf(state, of, null, { oneOfSeveral }), 'mg'));
    expect(left('unknown')).toEqual([null, null]);
    expect(left('left-out')).toEqual([25_000_000, 25_000_000]);
  });

  it('is reached, possibly, by what speaks against one of them, and opens a deviation where it did already', () => {
    const { book, make, weigh, any } = withTwo();
    weigh([any]);
    book.record('hold-placed', { lot: other, deviation: null }, { at: night('03:00') });
    const reaching = concernsOf(workingSetOf(book.snapshot()), [make]).get(make) ?? [];
    expect(reaching.map((r) => [r.concern.type, r.concern.lot, r.certain])).toEqual([['held', other, false]]);
    // The hold told of the make that it may be in already, and to use it again is told once more, of that lot alone.
    expect(weigh([any], { at: night('03:05') }).outcome.lines.map((l) => l.trouble)).toEqual([null, 'held-lot-used']);
    expect(troubles(book, make)).toEqual([
      ['held-lot-used', false],
      ['held-lot-used', false],
    ]);
  });

  it.each<[string, Partial<Line>, string, string]>([
    ['no lot beside others', { lot: null, orLots: [other] }, 'malformed', 'payload.lines.0.orLots'],
    ['one lot twice', { orLots: [lot] }, 'malformed', 'payload.lines.0.orLots'],
    ['one that is not there', { orLots: [uuid(0xfff)] }, 'unknown-lot', 'payload.lines.0.orLots.0'],
  ])('is refused for %s', (_case, of, problem, field) => {
    const { book, make, line } = withTwo();
    expect(book.refusal('weighed-in', { make, lines: [line(of)] }, { at: night('02:05') })).toMatchObject({ problem, field });
  });

  it('was never said by a record of the first version', () => {
    const { book, make, line, weigh } = withFlour();
    weigh([line()], { version: 1 });
    expect(book.all('flow').map((f) => [f.source, f.target, f.certain, f.anyOf])).toEqual([[lot, make, true, null]]);
  });
});
