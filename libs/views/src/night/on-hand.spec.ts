import { describe, expect, it } from '@jest/globals';
import { shelvesOf, workingSetOf } from '@bakehouse/records';
import { onHandOf } from './on-hand.js';
import { lookupOf } from '../lookup/lookup.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

type Book = ReturnType<typeof oneBatch>;
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });
const out = (n: Book, lots: readonly string[], count: number | null, time: string) =>
  n.book.record(
    'sent-out',
    {
      channel: 'round',
      customer: null,
      unattended: false,
      until: null,
      lines: [{ lots: [...lots], quantity: count === null ? null : pieces(count), how: 'counted' }],
    },
    { at: night(time) },
  );
const onHand = (n: Book, time: string) => onHandOf(lookupOf(n.book.snapshot(), row(time), 'Europe/London'));

/** Its loads read, so that what is counted out may be let go. */
function baked(): Book {
  const n = oneBatch();
  n.loads.forEach((load) => n.core(load, '95.1'));
  return n;
}

describe('what there is to send out', () => {
  it('is nothing before it is counted out, and then the good pieces, less what went, more than there was below zero', () => {
    const n = baked();
    const batch = n.countOut({ pieces: 18, rejects: 2 }).id;
    expect(onHand(n, '04:59')).toEqual([]);
    expect(onHand(n, '05:01')).toMatchObject([
      {
        name: 'white tin 800 g',
        left: 18,
        lots: [{ id: batch, code: '6329-TIN', left: 18, release: 'may-go', trouble: null, onCounter: null }],
      },
    ]);
    n.release(batch);
    out(n, [batch], 12, '05:50');
    out(n, [batch], 8, '05:55');
    expect(onHand(n, '05:52')[0]).toMatchObject({ left: 6, lots: [{ left: 6 }] });
    expect(onHand(n, '06:00')[0]).toMatchObject({ left: -2, lots: [{ left: -2 }] });
  });

  it('takes what went as one of several lots off their sum once, and from no lot by name, until all of them are counted', () => {
    const n = baked();
    const [a, b] = [n.countOut({ pieces: 10 }).id, n.countOut({ pieces: 8, code: '6329-TIN-2' }).id];
    [a, b].forEach((batch) => n.release(batch));
    out(n, [a, b], 5, '05:50');
    expect(onHand(n, '06:00')[0]).toMatchObject({ left: 13, lots: [{ left: 10 }, { left: 8 }] });
    const counted = (lot: string, count: number, time: string) =>
      n.book.record('lot-counted', { lot, place: null, quantity: pieces(count) }, { at: night(time) });
    counted(a, 7, '06:10');
    expect(onHand(n, '06:11')[0]).toMatchObject({ left: 10, lots: [{ left: 7 }, { left: 8 }] });
    counted(b, 6, '06:12');
    expect(onHand(n, '06:13')[0]).toMatchObject({ left: 13, lots: [{ left: 7 }, { left: 6 }] });
  });

  it('leaves out what is on hold, and what is past its use-by date, and says how many those are', () => {
    const n = baked();
    const [a, b] = [n.countOut({ pieces: 10, useBy: '2026-11-25', bestBefore: null }).id, n.countOut({ pieces: 8, code: '6329-TIN-2' }).id];
    [a, b].forEach((batch) => n.release(batch));
    expect(onHand(n, '06:00')[0]).toMatchObject({ left: 18, onHold: 0, pastDate: 0 });
    const nextDay = onHandOf(lookupOf(n.book.snapshot(), '2026-11-26T06:00:00.000Z', 'Europe/London'));
    expect(nextDay[0]).toMatchObject({ left: 8, onHold: 0, pastDate: 10 });
    n.book.record('hold-placed', { lot: b, deviation: null }, { at: night('06:01'), words: { reason: 'one tastes of soap' } });
    expect(onHand(n, '06:02')[0]).toMatchObject({ left: 10, onHold: 8, pastDate: 0 });
    out(n, [a, b], 12, '06:05');
    expect(onHand(n, '06:06')[0]).toMatchObject({ left: 0, onHold: 8 });
    out(n, [a, b], 12, '06:07');
    expect(onHand(n, '06:08')[0]?.left).toBe(-6);
  });

  it('cannot be said where nobody knows how many went; what is all gone is left out unless it stands on the counter', () => {
    const n = baked();
    const batch = n.countOut().id;
    n.release(batch);
    const counter = (way: 'on' | 'off', time: string) =>
      n.book.record('put-on-counter', { lot: batch, way, pieces: 20 }, { at: night(time) });
    counter('on', '05:20');
    out(n, [batch], 20, '05:50');
    expect(onHand(n, '06:00')[0]?.lots).toMatchObject([{ left: 0, onCounter: { since: row('05:20'), pieces: 0 } }]);
    counter('off', '06:01');
    expect(onHand(n, '06:02')).toEqual([]);
    out(n, [batch], null, '06:10');
    expect(onHand(n, '06:11')[0]).toMatchObject({ left: null, lots: [{ left: null }] });
  });

  it('stands on the counter less what was sold over it, with what was put there besides, and no more than is left', () => {
    const n = oneBatch();
    const batch = n.countOut().id;
    const put = (count: number | null, time: string) =>
      n.book.record('put-on-counter', { lot: batch, way: 'on', pieces: count }, { at: night(time) });
    const sold = (count: number | null, time: string) =>
      n.book.record(
        'sent-out',
        {
          channel: 'counter',
          customer: null,
          unattended: false,
          until: null,
          lines: [{ lots: [batch], quantity: count === null ? null : pieces(count), how: 'counted' }],
        },
        { at: night(time) },
      );
    put(12, '05:20');
    sold(5, '05:30');
    put(3, '05:40');
    const there = (time: string) => {
      const state = workingSetOf(n.book.snapshot());
      const [shelf] = shelvesOf(state, batch, row(time)).onCounter;
      expect(shelf?.since).toBe(row('05:20'));
      expect(onHand(n, time)[0]?.lots[0]?.onCounter).toEqual({ since: shelf?.since, pieces: shelf?.pieces });
      return shelf?.pieces;
    };
    expect([there('05:25'), there('05:35'), there('05:45')]).toEqual([12, 7, 10]);
    n.book.record('lot-counted', { lot: batch, place: null, quantity: pieces(4) }, { at: night('06:00') });
    expect(there('06:01')).toBe(4);
    sold(null, '06:10');
    expect(there('06:11')).toBeNull();
  });
});
