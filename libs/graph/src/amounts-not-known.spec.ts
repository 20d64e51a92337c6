import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { accountOf } from './account.js';
import type { LotAccountRows } from './account-rows.js';

const hour = (n: number): string => new Date(Date.UTC(2026, 10, 25, n)).toISOString();
type Use = LotAccountRows['uses'][number];
const use = (mg: number | null, n: number): Use => ({
  type: 'ingredient',
  mg,
  pieces: null,
  how: 'weighed',
  certain: true,
  anyOf: null,
  among: 1,
  at: hour(n),
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
const sack = lot({ mg: 10_000 });
const none = { departures: [], returned: [], count: null };

describe('a balance with an amount that nobody knows', () => {
  it('does not say what is left where something went since the count: 6.5 kg counted, 0.5 kg and some more gone is 6 kg at most', () => {
    const count = { mg: 6500, pieces: null, at: hour(2) };
    const b = accountOf({ ...none, lot: sack, count, uses: [use(3500, 1), use(500, 3), use(null, 4)] });
    expect(b).toMatchObject({ onHand: null, atMost: 6000, gone: 4000, withoutAmount: 1, unaccounted: null, finding: 'unknown-amounts' });
  });
  it('says no more than that it is not over what there was, where all went without amounts', () => {
    const b = accountOf({ ...none, lot: sack, uses: [use(null, 1), use(null, 2)] });
    expect(b).toMatchObject({ onHand: null, atMost: 10_000, withoutAmount: 2, unaccounted: null, finding: 'unknown-amounts' });
  });
  it('knows what is left again once somebody counted it, and that at most the rest is unaccounted for', () => {
    const b = accountOf({ ...none, lot: sack, count: { mg: 6000, pieces: null, at: hour(2) }, uses: [use(3000, 1), use(null, 1)] });
    expect(b).toMatchObject({ onHand: { amount: 6000, by: 'count' }, atMost: null, unaccounted: 1000, finding: 'not-all-accounted' });
    const all = accountOf({ ...none, lot: sack, count: { mg: 7000, pieces: null, at: hour(2) }, uses: [use(3000, 1), use(null, 1)] });
    expect(all).toMatchObject({ onHand: { amount: 7000 }, unaccounted: null, finding: 'unknown-amounts' });
    const more = accountOf({ ...none, lot: sack, count: { mg: 8000, pieces: null, at: hour(2) }, uses: [use(3000, 1), use(null, 1)] });
    expect(more).toMatchObject({ unaccounted: -1000, finding: 'more-than-there-was' });
  });
  it('has no three pieces too many in a shop that sold of what was sent there without a number', () => {
    const out = (channel: string, pieces: number | null, n: number) => ({ ...use(null, n), channel, pieces, how: 'counted' });
    const sent = out('own-shop', null, 1);
    const shop = { departures: [out('counter', 3, 3)], returned: [{ ...sent, disposition: 'on-hand' }], count: null };
    const batch = { lot: lot({ type: 'batch', pieces: 20 }), uses: [], departures: [sent], returned: [] };
    const counted = accountOf({ ...batch, count: { mg: null, pieces: 10, at: hour(2) }, shop });
    expect(counted).toMatchObject({ onHand: null, gone: 3, withoutAmount: 1, unaccounted: 10 });
    const inShop = accountOf({ ...batch, count: null, shop: { ...shop, count: { mg: null, pieces: 9, at: hour(2) } } });
    expect(inShop).toMatchObject({ onHand: null, unaccounted: null, finding: 'unknown-amounts' });
  });
  it('has nothing left where all that was left was destroyed, however much that was', () => {
    const destroyed = { ...use(null, 3), channel: 'waste', decided: 'rest' as const };
    const b = accountOf({ ...none, lot: sack, uses: [use(null, 1)], departures: [destroyed] });
    expect(b).toMatchObject({ onHand: { amount: 0, by: 'records' }, finding: 'unknown-amounts' });
  });

  /** What came, went and was found, as it was; nobody wrote down the amounts that are hidden. */
  const event = fc.record({
    does: fc.constantFrom('in', 'use', 'use', 'back', 'count', 'weigh'),
    amount: fc.nat(50),
    hidden: fc.boolean(),
  });

  it.each(['received', 'made'] as const)('says nothing of goods that were %s that is not so', (type) => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 500 }), fc.array(event, { maxLength: 8 }), (first, events) => {
        const made = type === 'made';
        let [here, wentIn, weighed, sinceCount, hiddenAny] = [first, first, false, false, false];
        let [lost, before] = [0, 0];
        const rows = {
          into: [{ mg: first, pieces: null, at: hour(0) }],
          uses: [] as Use[],
          returned: [] as LotAccountRows['returned'][number][],
        };
        let [count, end]: [LotAccountRows['count'], LotAccountRows['count']] = [null, null];
        for (const [i, { does, amount, hidden }] of events.entries()) {
          const [at, n] = [hour(i + 1), Math.min(amount, here)];
          if (does === 'in' && made) {
            rows.into.push({ mg: amount, pieces: null, at });
            [here, wentIn] = [here + amount, wentIn + amount];
          } else if (does === 'use' || does === 'back') {
            const mg = hidden ? null : does === 'use' ? n : amount;
            if (does === 'use') rows.uses.push(use(mg, i + 1));
            else rows.returned.push({ mg, pieces: null, disposition: 'on-hand', at });
            here += does === 'use' ? -n : amount;
            [sinceCount, hiddenAny] = [sinceCount || hidden, hiddenAny || hidden];
          } else if (does === 'count') [count, sinceCount] = [{ mg: here, pieces: null, at }, false];
          else if (does === 'weigh' && made && !weighed && rows.returned.length === 0) {
            [lost, before, weighed] = [n, wentIn, true];
            here -= n;
            [end, sinceCount] = [{ mg: here, pieces: null, at }, false];
          }
        }
        const of = lot({ type, mg: made ? wentIn : first, outMg: end?.mg ?? null, lostMg: end ? before - (end.mg ?? 0) : null });
        const b = accountOf({ ...none, ...rows, into: made ? rows.into : [], lot: of, count, weighed: end });
        expect(b.onHand?.amount ?? null).toBe(sinceCount ? null : here);
        if (b.atMost !== null) expect(b.atMost).toBeGreaterThanOrEqual(here);
        if (b.unaccounted !== null && b.unaccounted < 0) throw new Error('more than there was');
        if (!hiddenAny) expect([b.lost, ['none', 'nobody-counted'].includes(b.finding)]).toEqual([lost, true]);
        else if (b.finding === 'none') expect(b.onHand).not.toBeNull();
      }),
      { numRuns: 500 },
    );
  });
});
