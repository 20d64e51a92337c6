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
    };
    expect(leftOf(null, movementsUntil(rows, '5'), 'mg')).toBe(1 + 10 - 3);
  });

  const pieces = (at: string, many: number) => ({ id: at, at, mg: null, pieces: many });
  const out = (at: string, many: number, more: object = {}) => ({
    ...{ ...pieces(at, many), channel: 'dispatch', customer: null, site: 'a', toShop: false },
    ...more,
  });
  const nothing = { into: [], out: [], returned: [], counts: [], counter: [] };
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
  });
});
