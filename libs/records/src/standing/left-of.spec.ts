import { describe, expect, it } from '@jest/globals';
import { leftByPlace, leftOf, movementsUntil } from './left-of.js';
import type { Moved } from './places.js';

const moved = (at: string, mg: number | null): Moved => ({ id: at, at, mg, pieces: null });
const none = { into: [], back: [], out: [], counts: [] };

describe('what is left of a lot', () => {
  it.each<[string, number | null, Parameters<typeof leftOf>[1], number | null]>([
    ['what was received, less what was used', 25_000, { ...none, out: [moved('1', 8_600)] }, 16_400],
    ['less than nothing, which is a finding', 25_000, { ...none, out: [moved('1', 25_300)] }, -300],
    ['not known where a use was not weighed', 25_000, { ...none, out: [moved('1', null)] }, null],
    ['not known where the papers never said', null, none, null],
    [
      'what went into a vessel, less what was taken',
      null,
      { ...none, into: [moved('1', 420), moved('1', 2_180)], out: [moved('2', 2_180)] },
      420,
    ],
    [
      'from the last count on',
      25_000,
      { ...none, out: [moved('1', null), moved('5', 500)], counts: [moved('2', 9_000), moved('4', 5_360)] },
      4_860,
    ],
    [
      'from a count, with what came into it since',
      25_000,
      { ...none, into: [moved('1', 7), moved('5', 40)], counts: [moved('4', 100)] },
      140,
    ],
    [
      'what was received, less what was sent, with what came back',
      25_000,
      { ...none, out: [moved('1', 9_000)], back: [moved('2', 2_000)] },
      18_000,
    ],
    ['from a count, with what came back since', 25_000, { ...none, back: [moved('1', 7), moved('5', 40)], counts: [moved('4', 100)] }, 140],
    ['what came of it, where it was counted before any of it came', 15, { ...none, into: [moved('5', 15)], counts: [moved('4', 2)] }, 15],
    ['what was stated, whatever went into it before', 25_000, { ...none, into: [moved('1', 7)] }, 25_000],
  ])('%s', (_case, stated, movements, left) => {
    expect(leftOf(stated, movements, 'mg')).toBe(left);
  });

  it('counts what came back to it, and nothing that lies ahead', () => {
    const back = (at: string, disposition: string) => ({ ...moved(at, 10), disposition, site: 'a', fromShop: false });
    const rows = {
      into: [moved('1', 1)],
      out: [moved('9', 5)],
      departures: [{ ...moved('2', 3), channel: 'dispatch', customer: null, site: 'a', toShop: false }],
      returned: [back('2', 'on-hand'), back('2', 'waste')],
      counts: [{ ...moved('9', 0), site: 'a', place: null }],
      counter: [],
      carried: [],
    };
    expect(leftOf(null, movementsUntil(rows, '5'), 'mg')).toBe(1 + 10 - 3);
  });

  const pieces = (at: string, many: number) => ({ id: at, at, mg: null, pieces: many });
  const out = (at: string, many: number, more: object = {}) => ({
    ...{ ...pieces(at, many), channel: 'dispatch', customer: null, site: 'a', toShop: false },
    ...more,
  });
  const nothing = { into: [], out: [], returned: [], counts: [], counter: [], carried: [] };
  const toShop = { toShop: true, channel: 'own-shop', customer: 'shop' };

  it('is said by place where the shop is a site of its own: a count there closes the balance there, and here only here', () => {
    const departures = [out('1', 30, toShop), out('2', 40), out('3', 22, { site: 'b', channel: 'counter' })];
    const of = (counts: { at: string; many: number; site: string }[]) =>
      leftByPlace(
        100,
        movementsUntil(
          { ...nothing, departures, counts: counts.map((c) => ({ ...pieces(c.at, c.many), site: c.site, place: null })) },
          '9',
        ),
        'pieces',
      );
    expect(of([])).toEqual({ bakehouse: 30, shop: 8 });
    expect(of([{ at: '4', many: 0, site: 'b' }])).toEqual({ bakehouse: 30, shop: 0 });
    expect(of([{ at: '4', many: 0, site: 'a' }])).toEqual({ bakehouse: 0, shop: 8 });
  });

  it('stays in the shop where a shop writes that it sent something to itself: only the first that sent is the sender', () => {
    const departures = [out('1', 5, toShop), out('2', 1, { ...toShop, site: 'b' })];
    expect(leftByPlace(17, movementsUntil({ ...nothing, departures }, '9'), 'pieces')).toEqual({ bakehouse: 12, shop: 5 });
    const counts = [{ ...pieces('3', 4), site: 'b', place: null }];
    expect(leftByPlace(17, movementsUntil({ ...nothing, departures, counts }, '9'), 'pieces')).toEqual({ bakehouse: 12, shop: 4 });
  });

  describe('counted at places that are named', () => {
    const at = (time: string, place: string | null, many: number) => ({ ...pieces(time, many), site: 'a', place });
    const carriedTo = (time: string, toPlace: string, many: number | null) => ({ at: time, toPlace, mg: null, pieces: many });
    const left = (counts: ReturnType<typeof at>[], carried: ReturnType<typeof carriedTo>[] = []) =>
      leftOf(30, movementsUntil({ ...nothing, departures: [], counts, carried }, '9'), 'pieces');
    it.each([
      ['is what was found at both', 30, [at('2', 'store', 20), at('3', 'freezer', 10)], [carriedTo('1', 'freezer', 10)]],
      ['is what the last count at each found', 28, [at('2', 'store', 20), at('3', 'freezer', 10), at('4', 'store', 18)], []],
      [
        'is by the records while a place was not counted that some of it was carried to',
        30,
        [at('2', 'store', 20)],
        [carriedTo('1', 'freezer', 10)],
      ],
      ['is by the records while only that place was counted', 30, [at('2', 'freezer', 8)], [carriedTo('1', 'freezer', 10)]],
      ['is what was found where all of it stands', 8, [at('2', 'freezer', 8)], [carriedTo('1', 'freezer', null)]],
      ['is what was found where nobody carried it elsewhere', 8, [at('2', 'store', 8)], []],
      ['is not nothing where nothing was found there', 30, [at('2', 'store', 0)], []],
      ['is with nothing at one place what was found at the other', 20, [at('2', 'store', 20), at('3', 'freezer', 0)], []],
      ['is what was found at the whole site since', 25, [at('2', 'store', 20), at('3', 'freezer', 10), at('4', null, 25)], []],
    ] as const)('%s', (_case, expected, counts, carried) => {
      expect(left([...counts], [...carried])).toBe(expected);
    });
  });

  it('has again what came back to be reworked, until it is', () => {
    const back = { ...pieces('2', 2), disposition: 'rework', site: 'a', fromShop: false };
    const rows = { ...nothing, departures: [out('1', 5)], returned: [back] };
    expect(leftOf(17, movementsUntil(rows, '9'), 'pieces')).toBe(14);
    expect(leftOf(17, movementsUntil({ ...rows, out: [pieces('3', 2)] }, '9'), 'pieces')).toBe(12);
  });

  it('is not closed by the count of one shop where two have some of it', () => {
    const departures = [out('1', 30, toShop), out('2', 30, { ...toShop, customer: 'other shop' })];
    const counts = [{ ...pieces('4', 0), site: 'b', place: null }];
    expect(leftByPlace(100, movementsUntil({ ...nothing, departures, counts }, '9'), 'pieces')).toEqual({ bakehouse: 40, shop: 60 });
  });

  it('has what the shop’s counter sold by difference once, in as many goes as it was put there', () => {
    const on = (at: string, way: 'on' | 'off', many: number | null) => ({ id: at, at, way, pieces: many, site: 'b' });
    const departures = [out('1', 30, toShop), out('3', 20, { site: 'b', channel: 'counter' })];
    const counter = [on('2', 'on', 25), on('2.5', 'on', 5), on('4', 'off', 2)];
    expect(leftByPlace(100, movementsUntil({ ...nothing, departures, counter }, '9'), 'pieces')).toEqual({ bakehouse: 70, shop: 2 });
  });

  it('is nothing anywhere once the rest was destroyed by decision; of a stated amount, what the bakehouse had not was in the shop', () => {
    const sent = out('1', 30, toShop);
    const decision = { site: 'organisation', channel: 'waste' };
    const left = (destroyed: object) =>
      leftByPlace(
        100,
        movementsUntil({ ...nothing, departures: [sent, out('2', 65), { ...out('3', 0), ...decision, ...destroyed }] }, '9'),
        'pieces',
      );
    expect(left({ decided: 'rest', pieces: null })).toEqual({ bakehouse: 0, shop: 0 });
    expect(left({ decided: 'amount', pieces: 15 })).toEqual({ bakehouse: 0, shop: 20 });
    // What a site decided on under a deviation of its own stood there.
    expect(left({ decided: 'amount-at-site', pieces: 4, site: 'b' })).toEqual({ bakehouse: 5, shop: 26 });
    expect(left({ decided: 'amount-at-site', pieces: 4, site: 'a' })).toEqual({ bakehouse: 1, shop: 30 });
  });
});
