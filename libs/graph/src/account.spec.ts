import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { accountOf, accountsTogether } from './account.js';
import type { LotAccountRows } from './account-rows.js';
import { roomsOfGroups, sharedOut } from './groups.js';

const at = '2026-11-25T10:00:00.000Z';
const out = (channel: string, pieces: number, more: object = {}) => ({
  channel,
  pieces,
  mg: null,
  how: 'counted',
  certain: true,
  anyOf: null,
  among: 1,
  at,
  ...more,
});

const lot = (of: Partial<LotAccountRows['lot']>): LotAccountRows['lot'] => ({
  id: 'lot',
  type: 'received',
  mg: null,
  pieces: null,
  outMg: null,
  lostMg: null,
  ...of,
});
const noon = '2026-11-25T12:00:00.000Z';

describe('a lot’s account', () => {
  it('counts a batch in pieces and takes what left after the count off it', () => {
    const b = accountOf({
      lot: lot({ type: 'batch', pieces: 100 }),
      uses: [],
      departures: [out('counter', 40), out('dispatch', 20, { at: '2026-11-25T15:00:00.000Z' })],
      returned: [],
      count: { mg: null, pieces: 60, at: '2026-11-25T12:00:00.000Z' },
    });
    expect(b).toMatchObject({ measure: 'pieces', gone: 60, onHand: { amount: 40, by: 'count' }, unaccounted: 0 });
  });
  it('weighs an ingredient, and keeps what may have gone out of the sum', () => {
    const use = { mg: 3000, pieces: null, how: 'weighed', type: 'ingredient', certain: true, anyOf: null, among: 1, at };
    expect(
      accountOf({
        lot: lot({ mg: 10_000 }),
        uses: [use, { ...use, certain: false }],
        departures: [],
        returned: [],
        count: { mg: 7000, pieces: null, at },
      }),
    ).toMatchObject({ measure: 'mg', gone: 3000, unaccounted: 0 });
  });
  it('takes back only what came back to the shelf', () => {
    const back = (disposition: string, when = at) => ({ mg: null, pieces: 5, disposition, at: when });
    expect(
      accountOf({
        lot: lot({ type: 'batch', pieces: 50 }),
        uses: [],
        departures: [out('round', 30)],
        returned: [back('on-hand'), back('waste')],
        count: { mg: null, pieces: 25, at },
      }),
    ).toMatchObject({ gone: 25, unaccounted: 0 });
    const late = accountOf({
      lot: lot({ type: 'batch', pieces: 50 }),
      uses: [],
      departures: [out('round', 30)],
      returned: [back('on-hand', '2026-11-25T15:00:00.000Z')],
      count: { mg: null, pieces: 20, at },
    });
    expect(late).toMatchObject({ gone: 25, onHand: { amount: 25, by: 'count' }, unaccounted: 0 });
  });
  it('takes a declared loss neither for stock nor for missing: a custard’s 180 g, what drying took', () => {
    const custard = {
      lot: lot({ type: 'made', mg: 8_976_000, outMg: 8_796_000, lostMg: 180_000 }),
      uses: [],
      departures: [],
      returned: [],
    };
    expect(accountOf({ ...custard, count: null })).toMatchObject({ lost: 180_000, onHand: { amount: 8_796_000, by: 'records' } });
    const counted = accountOf({ ...custard, count: { mg: 8_796_000, pieces: null, at } });
    expect(counted).toMatchObject({ received: 8_976_000, lost: 180_000, unaccounted: 0, accountedBasisPoints: 10_000, finding: 'none' });
  });
  it('starts from what came out where nobody weighed all that went in', () => {
    const made = { lot: lot({ type: 'made', outMg: 700 }), uses: [], departures: [], returned: [], count: null };
    expect(accountOf({ ...made, weighed: { mg: 700, pieces: null, at } })).toMatchObject({
      received: 700,
      lost: 0,
      onHand: { amount: 700 },
    });
  });
  it('says what was counted and when, and what has gone since', () => {
    const rows = { lot: lot({ type: 'batch', pieces: 100 }), uses: [], returned: [], count: { mg: null, pieces: 90, at: noon } };
    const departures = [out('counter', 10), out('dispatch', 20, { at: '2026-11-25T15:00:00.000Z' })];
    expect(accountOf({ ...rows, departures })).toMatchObject({
      counted: { amount: 90, at: noon, goneSince: 20 },
      onHand: { amount: 70, by: 'count' },
      unaccounted: 0,
    });
  });

  it('has what was sent to the own shop and sold there once, and what the bakehouse’s count misses is said whether the shop has counted or not', () => {
    const sent = out('own-shop', 30);
    const home = { lot: lot({ type: 'batch', pieces: 100 }), uses: [], departures: [out('dispatch', 60), sent], returned: [] };
    const shop = { departures: [out('counter', 28, { at: noon })], returned: [{ ...sent, disposition: 'on-hand' }], count: null };
    expect(accountOf({ ...home, count: null, shop })).toMatchObject({ gone: 88, onHand: { amount: 12, by: 'records' } });
    const counted = { mg: null, pieces: 10, at: noon };
    const short = { ...counted, pieces: 7 };
    expect(accountOf({ ...home, count: short, shop })).toMatchObject({ onHand: { amount: 9, by: 'count' }, unaccounted: 3 });
    const both = accountOf({ ...home, count: counted, shop: { ...shop, count: { ...counted, pieces: 2 } } });
    expect(both).toMatchObject({ gone: 88, onHand: { amount: 12, by: 'count' }, unaccounted: 0, finding: 'none' });
    const inShop = accountOf({ ...home, count: null, shop: { ...shop, count: { ...counted, pieces: 1 } } });
    expect(inShop).toMatchObject({ gone: 88, onHand: { amount: 11, by: 'count' }, unaccounted: 1, finding: 'not-all-accounted' });
  });
});

describe('what left as one of several lots', () => {
  const either = { certain: false, anyOf: 'g', among: 2 };
  const batch = (id: string, pieces: number, left: number | null, departures = [out('round', 6, either)]): LotAccountRows => ({
    lot: lot({ id, type: 'batch', pieces }),
    uses: [],
    departures,
    returned: [],
    count: left === null ? null : { mg: null, pieces: left, at: noon },
  });

  it('is found where it fits: 16 made, 6 gone, 10 counted is 100 %', () => {
    expect(accountOf(batch('a', 16, 10))).toMatchObject({
      gone: 0,
      perhaps: 6,
      unaccounted: 0,
      accountedBasisPoints: 10_000,
      finding: 'none',
    });
  });
  it('explains no more than it was', () => {
    expect(accountOf(batch('a', 16, 8))).toMatchObject({ perhaps: 6, unaccounted: 2, accountedBasisPoints: 8750 });
  });
  it('is one amount in one line for all of its lots', () => {
    const [line, ...others] = accountsTogether([batch('a', 10, 6), batch('b', 6, 4)]);
    expect(others).toEqual([]);
    expect(line).toMatchObject({ lots: ['a', 'b'], balance: { received: 16, gone: 6, perhaps: 0, unaccounted: 0, finding: 'none' } });
  });
  it('is not found twice: both lots short of all of it are short of it once', () => {
    const [line] = accountsTogether([batch('a', 10, 4), batch('b', 6, 0)]);
    expect(line).toMatchObject({ balance: { gone: 6, unaccounted: 6, finding: 'not-all-accounted' } });
  });
  it('stays possible in that line where one of its lots is not in it', () => {
    const three = [out('round', 6, { ...either, among: 3 })];
    const [line] = accountsTogether([batch('a', 10, 6, three), batch('b', 6, 6, three)]);
    expect(line).toMatchObject({ lots: ['a', 'b'], balance: { gone: 0, perhaps: 6, unaccounted: 0, accountedBasisPoints: 10_000 } });
  });
  it('leaves other lots a line each', () => {
    expect(accountsTogether([batch('a', 10, 6), batch('c', 5, 5, []), batch('b', 6, 4)]).map((l) => l.lots)).toEqual([['a', 'b'], ['c']]);
  });
  it('came off what was counted before it, or was gone by then: either adds up', () => {
    const [line] = accountsTogether([
      batch('a', 10, 10),
      { ...batch('b', 6, 6), count: { mg: null, pieces: 6, at: '2026-11-25T09:00:00.000Z' } },
    ]);
    expect(line).toMatchObject({ balance: { received: 16, gone: 6, unaccounted: 0, finding: 'none' } });
  });

  describe('where one of them had too little', () => {
    const thirty = [out('round', 30, either)];
    // 30 pieces of A or B: A had 40, B had 20, so that 10 to 30 are of A and 0 to 20 of B.
    const [a, b] = [batch('a', 40, null, thirty), batch('b', 20, null, thirty)];
    const partsOf = (...rows: LotAccountRows[]): unknown => {
      const group = roomsOfGroups(rows).get('g');
      return group && rows.map(({ lot: { id } }) => sharedOut(group, id));
    };
    it('is of the other at least what this one could not give, and of none more than it had', () => {
      expect(partsOf(a, b)).toEqual([
        { least: 10, most: 30 },
        { least: 0, most: 20 },
      ]);
    });
    it('is less what of it went elsewhere, and what was there when it was counted', () => {
      // B sold 5 over the counter, and 12 were counted at noon: 3 of the 30 at most; A gave the other 27.
      const sold = batch('b', 20, 12, [...thirty, out('counter', 5)]);
      expect(partsOf(a, sold)).toEqual([
        { least: 27, most: 30 },
        { least: 0, most: 3 },
      ]);
    });
    it('is after a count no more than what was counted, less what went since', () => {
      const later = '2026-11-25T15:00:00.000Z';
      const round = [out('round', 30, { ...either, at: later })];
      // B: 18 at noon, 6 over the counter since; A has 40.
      const counted = batch('b', 20, 18, [...round, out('counter', 6, { at: later })]);
      expect(partsOf(batch('a', 40, null, round), counted)).toEqual([
        { least: 18, most: 30 },
        { least: 0, most: 12 },
      ]);
    });
    it('is in the balance of each: 10 of A surely went, and 20 more perhaps', () => {
      const groups = roomsOfGroups([a, b]);
      expect(accountOf(a, groups)).toMatchObject({ gone: 10, perhaps: 20, onHand: { amount: 30, by: 'records' } });
      expect(accountOf(b, groups)).toMatchObject({ gone: 0, perhaps: 20, onHand: { amount: 20, by: 'records' } });
    });
    it('that both had too little of is a finding: 50 went as one of 20 and 20, which is 10 more than both had', () => {
      const fifty = [out('round', 50, either)];
      const rows = [batch('a', 20, null, fifty), batch('b', 20, null, fifty)];
      expect(roomsOfGroups(rows).size).toBe(0);
      expect(accountsTogether(rows)).toMatchObject([{ balance: { unaccounted: -10, finding: 'more-than-there-was' } }]);
    });
    it('says nothing where one of them is not known, or had nobody knows how much', () => {
      expect(partsOf(a)).toBeUndefined();
      expect(partsOf(a, { ...b, lot: lot({ id: 'b', type: 'batch' }) })).toEqual([
        { least: 0, most: 30 },
        { least: 0, most: 30 },
      ]);
    });
  });

  it('adds up whenever it does in truth: what went of each, when it was counted, and in what order', () => {
    const time = (n: number): string => new Date(Date.UTC(2026, 10, 25, n)).toISOString();
    const lotsOf = fc.array(fc.record({ spare: fc.nat(20), counted: fc.nat(9), own: fc.nat(9) }), { minLength: 2, maxLength: 5 });
    const trips = fc.array(fc.record({ at: fc.nat(9), takes: fc.array(fc.nat(4), { minLength: 5, maxLength: 5 }) }), { maxLength: 4 });
    fc.assert(
      fc.property(lotsOf, trips, (lots, trips) => {
        const taken = (i: number, until: number): number => trips.reduce((n, t) => n + (t.at <= until ? (t.takes[i] ?? 0) : 0), 0);
        const rows = lots.map(({ spare, counted, own }, i): LotAccountRows => {
          const made = spare + taken(i, 9) + own;
          const shared = trips.map((t, k) => {
            const pieces = lots.reduce((n, _, j) => n + (t.takes[j] ?? 0), 0);
            return out('round', pieces, { certain: false, anyOf: `trip ${k}`, among: lots.length, at: time(t.at) });
          });
          const left = made - taken(i, counted) - (own > 0 && 5 <= counted ? own : 0);
          return {
            lot: lot({ id: `${i}`, type: 'batch', pieces: made }),
            uses: [],
            departures: [...shared, ...(own > 0 ? [out('counter', own, { at: time(5) })] : [])],
            returned: [],
            count: { mg: null, pieces: left, at: time(counted) },
          };
        });
        for (const { balance } of accountsTogether(rows)) expect(balance).toMatchObject({ unaccounted: 0, finding: 'none' });
        const groups = roomsOfGroups(rows);
        for (const one of rows) {
          expect(accountOf(one)).toMatchObject({ unaccounted: 0, finding: 'none' });
          expect(accountOf(one, groups)).toMatchObject({ unaccounted: 0, finding: 'none' });
        }
        for (const [group, known] of groups) {
          const takes = trips[Number(group.slice('trip '.length))]?.takes ?? [];
          for (const [i] of lots.entries()) {
            const { least, most } = sharedOut(known, `${i}`);
            expect([least <= (takes[i] ?? 0), (takes[i] ?? 0) <= most]).toEqual([true, true]);
          }
        }
      }),
    );
  });
});
