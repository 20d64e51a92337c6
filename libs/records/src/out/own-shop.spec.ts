import { describe, expect, it } from '@jest/globals';
import { leftByPlace, leftOf } from '../standing/left-of.js';
import { movementsOf } from '../standing/lot-rows.js';
import { surelyGone } from '../standing/surely-gone.js';
import type { PayloadFor } from '../kinds.js';
import { workingSetOf } from '../base/snapshot.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const shop = uuid(0xf01);
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });

/** Twenty tins, and a shop of the house that some of them go to. */
function withShop() {
  const n = oneBatch();
  const party = {
    party: shop,
    type: 'own-shop' as const,
    name: 'Harbour Steps',
    contactName: null,
    phone: null,
    email: null,
    address: null,
  };
  n.book.given('party', uuid(0xf02), { ...party, vulnerable: false, unattended: false, since: '2026-11-01T00:00:00.000Z' });
  const batch = n.countOut().id;
  const send = (channel: PayloadFor<'sent-out'>['channel'], count: number, time: string, customer: string | null = null): string => {
    n.book.record(
      'sent-out',
      { channel, customer, unattended: false, until: null, lines: [{ lots: [batch], quantity: pieces(count), how: 'counted' }] },
      { at: night(time) },
    );
    return n.book.all('departure').at(-1)?.id ?? '';
  };
  const counter = (way: 'on' | 'off', count: number | null, time: string) =>
    n.book.record('put-on-counter', { lot: batch, way, pieces: count }, { at: night(time) });
  const count = (many: number, time: string, place: string | null = null) =>
    n.book.record('lot-counted', { lot: batch, place, quantity: pieces(many) }, { at: night(time) }).outcome;
  const cameBack = (departure: string, many: number, disposition: PayloadFor<'goods-returned'>['disposition'], time: string) =>
    n.book.record(
      'goods-returned',
      { lot: batch, departure, customer: shop, quantity: pieces(many), how: 'counted', disposition },
      { at: night(time) },
    );
  const state = () => workingSetOf(n.book.snapshot());
  const left = (time: string) => leftByPlace(20, movementsOf(state(), batch, row(time), { oneOfSeveral: 'left-out' }), 'pieces');
  const total = (time: string) => leftOf(20, movementsOf(state(), batch, row(time), { oneOfSeveral: 'left-out' }), 'pieces');
  const gone = (time: string) => surelyGone(state(), batch, row(time));
  return { ...n, batch, send, counter, count, cameBack, left, total, gone };
}

describe('the own shop', () => {
  it.each([
    ['as the own shop', 'own-shop', null],
    ['as a drop of the round', 'round', shop],
  ] as const)('has what was sent there %s: it is in the house until it is sold', (_how, channel, customer) => {
    const n = withShop();
    n.send(channel, 20, '06:00', customer);
    expect(n.left('06:01')).toEqual({ bakehouse: 0, shop: 20 });
    expect(n.gone('06:01')).toBe(false);
    n.send('counter', 20, '15:00');
    expect(n.left('15:01')).toEqual({ bakehouse: 0, shop: 0 });
    expect(n.gone('15:01')).toBe(true);
  });

  it('has each piece once: sent there, sold there and thrown away there', () => {
    const n = withShop();
    const there = n.send('own-shop', 12, '06:00', shop);
    n.send('dispatch', 5, '06:10');
    n.send('counter', 3, '08:00');
    expect(n.left('08:01')).toEqual({ bakehouse: 0, shop: 12 });
    n.send('counter', 7, '12:00');
    n.cameBack(there, 2, 'waste', '18:00');
    expect(n.left('18:01')).toEqual({ bakehouse: 0, shop: 3 });
    n.cameBack(there, 3, 'on-hand', '18:02');
    expect(n.total('18:03')).toBe(3);
    expect(n.gone('18:03')).toBe(false);
  });

  it('is not counted where the bakehouse counts: nothing left here says nothing about the shop', () => {
    const n = withShop();
    n.send('own-shop', 12, '06:00', shop);
    expect(n.count(0, '09:00').difference).toBe(-8);
    expect(n.left('09:01')).toEqual({ bakehouse: 0, shop: 12 });
    expect(n.gone('09:01')).toBe(false);
  });
});

describe('the counter', () => {
  it('keeps what was put there in the house; taken off, what is missing was sold, and a recorded sale of it is the same pieces', () => {
    const n = withShop();
    n.counter('on', 20, '06:00');
    expect(n.left('12:00').bakehouse).toBe(20);
    n.counter('off', 4, '16:00');
    expect(n.left('16:01').bakehouse).toBe(4);
    n.send('counter', 16, '16:02');
    expect(n.left('16:03').bakehouse).toBe(4);
    expect(n.gone('16:03')).toBe(false);
    n.send('waste', 4, '16:10');
    expect(n.gone('16:11')).toBe(true);
  });

  it('does not know how many were sold where nobody counted what came off, and so they are not surely gone', () => {
    const n = withShop();
    n.counter('on', 20, '06:00');
    n.counter('off', null, '16:00');
    expect(n.left('16:01').bakehouse).toBeNull();
    expect(n.gone('16:01')).toBe(false);
    n.count(0, '16:05');
    expect(n.gone('16:06')).toBe(true);
  });

  it('found empty says nothing about the rest of the lot', () => {
    const n = withShop();
    const place = n.book.all('place')[0]?.id ?? '';
    expect(n.count(0, '09:00', place).difference).toBe(-20);
    expect(n.left('09:01').bakehouse).toBe(20);
  });

  it('opens the same deviation as sending out does where the lot is not released or on hold, and none when it comes off', () => {
    const n = withShop();
    expect(n.counter('on', 20, '06:00').outcome).toMatchObject({ troubles: ['not-released'] });
    expect(n.book.all('deviation').filter((d) => d.subject === n.batch)).toMatchObject([
      { type: 'not-released', class: 'ccp', holds: true },
    ]);
    n.counter('off', 20, '06:10');
    n.book.record('hold-placed', { lot: n.batch, deviation: null }, { at: night('06:20'), words: { because: 'glass' } });
    expect(n.counter('on', 20, '06:30').outcome).toMatchObject({ troubles: ['held-lot-used', 'not-released'] });
    expect(
      n.book
        .all('deviation')
        .filter((d) => d.subject === n.batch)
        .map((d) => d.type),
    ).toEqual(['not-released', 'held-lot-used', 'not-released']);
  });
});
