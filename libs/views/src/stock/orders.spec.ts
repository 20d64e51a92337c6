import { describe, expect, it } from '@jest/globals';
import { lookupOf } from '../lookup/lookup.js';
import { ordersOf } from './orders.js';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const [cafe, school] = [uuid(0xca1), uuid(0xca2)];
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });

/** Twenty tins and eight of another batch of them, and two customers. */
function withCustomers() {
  const n = oneBatch();
  const lots = [n.countOut().id, n.countOut({ pieces: 8, code: '6329-TIN-2' }).id];
  for (const party of [cafe, school])
    n.book.record(
      'party-accepted',
      { party, type: 'customer', vulnerable: false, unattended: false },
      { at: night('00:01'), person: lead, words: { name: 'A customer' } },
    );
  type Channel = 'round' | 'dispatch' | 'waste';
  const send = (customer: string | null, of: readonly string[], count: number | null, at: string, channel: Channel = 'round') =>
    n.book.record(
      'sent-out',
      {
        channel,
        customer,
        unattended: false,
        until: null,
        lines: [{ lots: [...of], quantity: count === null ? null : pieces(count), how: 'counted' }],
      },
      { at },
    );
  const orders = (customer: string, at: string) =>
    ordersOf(lookupOf(n.book.snapshot(), new Date(at).toISOString(), 'Europe/London'), customer, {
      zone: 'Europe/London',
      dayStarts: '00:00',
    });
  return { ...n, lots, send, orders };
}
const [first, second, third] = ['2026-11-25T06:00:00Z', '2026-11-26T06:00:00Z', '2026-11-27T06:00:00Z'];

describe('the last order of a customer', () => {
  it('is what went there on the last day before, and no other customer’s', () => {
    const n = withCustomers();
    n.send(cafe, [n.lots[0] ?? ''], 3, first);
    n.send(cafe, [n.lots[0] ?? ''], 5, second);
    n.send(school, [n.lots[0] ?? ''], 2, second);
    expect(n.orders(cafe, third)).toMatchObject({
      today: null,
      last: { day: '2026-11-26', lines: [{ name: 'white tin 800 g', pieces: 5 }] },
    });
    expect(n.orders(cafe, second)).toMatchObject({
      today: { lines: [{ pieces: 5 }] },
      last: { day: '2026-11-25', lines: [{ pieces: 3 }] },
    });
    expect(n.orders(school, second).last).toBeNull();
  });

  it('counts once what went as one of several lots, and adds what was sent after it that day', () => {
    const n = withCustomers();
    n.send(cafe, n.lots, 6, first);
    n.send(cafe, [n.lots[1] ?? ''], 2, '2026-11-25T07:00:00Z', 'dispatch');
    expect(n.orders(cafe, second).last).toMatchObject({ at: '2026-11-25T07:00:00.000Z', lines: [{ pieces: 8 }], unnamed: 0 });
  });

  it('has no figure where nobody said how many, and nothing of what was thrown away', () => {
    const n = withCustomers();
    n.send(cafe, [n.lots[0] ?? ''], null, first);
    n.send(cafe, [n.lots[0] ?? ''], 4, second, 'waste');
    expect(n.orders(cafe, third).last).toMatchObject({ day: '2026-11-25', lines: [{ pieces: null }] });
  });

  it('says how much of it cannot be named where the rows of a lot are not there', () => {
    const n = withCustomers();
    n.send(cafe, [n.lots[0] ?? ''], 3, first);
    n.send(cafe, [n.lots[1] ?? ''], 4, first);
    const all = n.book.snapshot();
    const some = { ...all, batch: all.batch.filter((b) => b.id !== n.lots[1]) };
    const { last } = ordersOf(lookupOf(some, new Date(second).toISOString(), 'Europe/London'), cafe, {
      zone: 'Europe/London',
      dayStarts: '00:00',
    });
    expect(last).toMatchObject({ lines: [{ pieces: 3 }], unnamed: 1 });
  });
});
