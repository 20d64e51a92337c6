import { describe, expect, it } from '@jest/globals';
import { lookupOf } from '../lookup/lookup.js';
import { onHandOf } from './on-hand.js';
import { lead, night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });

/** A batch of 20 pieces that was released, and that a deviation holds since. */
function held() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const batch = n.countOut().id;
  n.release(batch);
  const about = { subjectType: 'batch' as const, subject: batch, class: 'ccp' as const, holds: true };
  const report = (what: string) => n.book.record('deviation-reported', about, { at: night('05:30'), words: { what } }).id;
  const accept = (deviation: string, count: number, time: string) =>
    n.book.record(
      'disposition-decided',
      {
        ...{ deviation, lot: batch, disposition: 'accepted-for-use', covers: 'this-alone', concerns: [] },
        quantity: pieces(count),
      },
      { at: night(time), person: lead, words: { note: 'looked at each' } },
    );
  const send = (count: number, time: string) => {
    const lines = [{ lots: [batch], quantity: pieces(count), how: 'counted' as const }];
    return n.book
      .record('sent-out', { channel: 'dispatch', customer: null, unattended: false, until: null, lines }, { at: night(time) })
      .outcome.lines.flatMap((l) => l.troubled.map((t) => t.trouble));
  };
  const show = (way: 'on' | 'off', count: number, time: string) =>
    n.book.record('put-on-counter', { lot: batch, way, pieces: count }, { at: night(time) }).outcome.troubles;
  const acceptedAt = (time: string) => onHandOf(lookupOf(n.book.snapshot(), row(time), 'Europe/London'))[0]?.lots[0]?.accepted;
  return { n, report, accept, send, show, acceptedAt };
}

describe('what of a held lot was accepted for use, where it is sent out', () => {
  it('is said with how much may still leave, as the record of a sending will judge it', () => {
    const { report, accept, send, acceptedAt } = held();
    const deviation = report('glass');
    expect(acceptedAt('05:45')).toBeNull();
    accept(deviation, 12, '06:00');
    expect(acceptedAt('06:01')).toEqual({ accepted: 12, mayLeave: 12 });
    expect(send(8, '06:10')).toEqual([]);
    expect(acceptedAt('06:11')).toEqual({ accepted: 12, mayLeave: 4 });
    expect(send(4, '06:20')).toEqual([]);
    expect(acceptedAt('06:21')).toEqual({ accepted: 12, mayLeave: 0 });
    expect(send(1, '06:30')).toEqual(['held-lot-used']);
  });

  it('is less by what stands on the counter or was sold there, as the record of a sending will judge it', () => {
    const { report, accept, send, show, acceptedAt } = held();
    accept(report('glass'), 12, '06:00');
    expect(show('on', 8, '06:10')).toEqual([]);
    expect(acceptedAt('06:11')).toEqual({ accepted: 12, mayLeave: 4 });
    show('off', 2, '06:20');
    expect(acceptedAt('06:21')).toEqual({ accepted: 12, mayLeave: 6 });
    expect(send(6, '06:30')).toEqual([]);
    expect(send(1, '06:40')).toEqual(['held-lot-used']);
  });

  it('may not leave while something else holds it about which nobody has decided', () => {
    const { report, accept, send, acceptedAt } = held();
    const glass = report('glass');
    report('moth');
    accept(glass, 12, '06:00');
    expect(acceptedAt('06:01')).toEqual({ accepted: 12, mayLeave: 0 });
    expect(send(1, '06:10')).toEqual(['held-lot-used']);
  });
});
