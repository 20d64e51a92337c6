import { describe, expect, it } from '@jest/globals';
import { onHandOf } from './on-hand.js';
import { toAskAbout } from './to-ask-about.js';
import { batchView } from './batches.js';
import { lookupOf } from '../lookup/lookup.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('bread of earlier days', () => {
  const asked = (n: ReturnType<typeof oneBatch>, day: string, weekBefore = '2026-11-01') => {
    const lookup = lookupOf(n.book.snapshot(), row('09:00'), 'Europe/London');
    return toAskAbout(lookup, onHandOf(lookup), { day, from: row('08:00'), weekBefore });
  };

  it('is asked about from the day after the one that it is dated to, until somebody counts it', () => {
    const n = oneBatch();
    const { id: lot } = n.countOut();
    expect(asked(n, '2026-11-28')).toEqual([]);
    expect(asked(n, '2026-11-29')).toMatchObject([{ lot: { id: lot, left: 20 }, cameBack: false }]);
    n.book.record('lot-counted', { lot, place: null, quantity: { figure: '18', unit: 'piece' } }, { at: night('08:30') });
    expect(asked(n, '2026-11-29')).toEqual([]);
  });

  it('is a batch of which its page says what is left', () => {
    const n = oneBatch();
    const { id: lot } = n.countOut();
    const waste = { channel: 'waste' as const, customer: null, unattended: false, until: null };
    const lines = [{ lots: [lot], quantity: { figure: '1', unit: 'piece' as const }, how: 'counted' as const }];
    n.book.record('sent-out', { ...waste, lines }, { at: night('07:00') });
    const lookup = lookupOf(n.book.snapshot(), row('09:00'), 'Europe/London');
    expect(lookup.snapshot.batch.map((b) => batchView(lookup, b))).toMatchObject([{ pieces: 20, left: 19 }]);
  });
});
