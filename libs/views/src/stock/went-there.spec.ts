import fc from 'fast-check';
import { describe, expect, it } from '@jest/globals';
import { lookupOf } from '../lookup/lookup.js';
import { sharesOf, wentThere, type ProductThere } from './went-there.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });

/** Two batches of tins that went on a round: five of the first, then six of either. */
function round() {
  const n = oneBatch();
  const lots = [n.countOut().id, n.countOut({ pieces: 8, code: '6329-TIN-2' }, { at: night('05:20') }).id];
  const send = (of: readonly string[], count: number, time: string) =>
    n.book.record(
      'sent-out',
      {
        ...{ channel: 'round', customer: null, unattended: false, until: null },
        lines: [{ lots: [...of], quantity: pieces(count), how: 'counted' }],
      },
      { at: night(time) },
    );
  send([lots[0] ?? ''], 5, '05:50');
  send(lots, 6, '06:10');
  const there = (time: string): ProductThere | undefined =>
    wentThere(lookupOf(n.book.snapshot(), row(time), 'Europe/London'), (d) => d.channel === 'round')[0];
  return { ...n, lots, there };
}

describe('what went somewhere and may come back', () => {
  it('is told by product, the newest departure and its newest lot first, each piece once', () => {
    const { there, lots } = round();
    expect(there('07:00')).toMatchObject({
      name: 'white tin 800 g',
      stillOut: 11,
      went: [
        { stillOut: 6, lots: [{ lot: lots[1] }, { lot: lots[0] }] },
        { stillOut: 5, lots: [{ lot: lots[0] }] },
      ],
    });
    expect(there('06:00')).toMatchObject({ stillOut: 5 });
  });

  it('is less what came back of any of its lots', () => {
    const n = round();
    const [newest] = n.there('07:00')?.went ?? [];
    const { lot = '', departure = '' } = newest?.lots[1] ?? {};
    n.book.record(
      'goods-returned',
      { lot, departure, customer: null, quantity: pieces(2), how: 'counted', disposition: 'waste' },
      { at: night('08:00') },
    );
    expect(n.there('08:01')).toMatchObject({ stillOut: 9, went: [{ stillOut: 4 }, { stillOut: 5 }] });
  });

  it('comes back of the newest first, and of a lot that was read off the pack where it was', () => {
    const { there, lots } = round();
    const product = there('07:00');
    if (product === undefined) throw new Error('nothing went');
    const shares = (count: number, read: string | null = null) =>
      sharesOf(product, count, read).map((s) => [s.lot === lots[0] ? 'first' : 'second', s.pieces, s.orOf]);
    expect(shares(4)).toEqual([['second', 4, ['6329-TIN']]]);
    expect(shares(8)).toEqual([
      ['second', 6, ['6329-TIN']],
      ['first', 2, []],
    ]);
    expect(shares(8, lots[0])).toEqual([
      ['first', 6, []],
      ['first', 2, []],
    ]);
    expect(shares(3, lots[1])).toEqual([['second', 3, []]]);
  });

  it('has every piece that came back in one share, however many', () => {
    const once = fc.record({ stillOut: fc.option(fc.integer({ min: -3, max: 30 })), lots: fc.integer({ min: 1, max: 3 }) });
    fc.assert(
      fc.property(fc.array(once, { minLength: 1, maxLength: 5 }), fc.integer({ min: 1, max: 200 }), (went, count) => {
        const product: ProductThere = {
          ...{ product: 'p', name: 'p', stillOut: null },
          went: went.map((w, i) => ({
            at: '',
            stillOut: w.stillOut,
            lots: Array.from({ length: w.lots }, (_, l) => ({ lot: `${l}`, code: null, departure: `${i} ${l}` })),
          })),
        };
        const shares = sharesOf(product, count, null);
        expect(shares.reduce((sum, s) => sum + s.pieces, 0)).toBe(count);
        expect(new Set(shares.map((s) => s.departure)).size).toBe(shares.length);
      }),
    );
  });
});
