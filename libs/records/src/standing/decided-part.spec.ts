import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { concernText, decidedPart, workingSetOf } from '@bakehouse/records';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import type { PayloadFor } from '../kinds.js';

type Choice = PayloadFor<'disposition-decided'>['disposition'];

/** A batch of 20 pieces that a deviation holds. */
function held() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const batch = n.countOut().id;
  const about = { subjectType: 'batch', subject: batch, class: 'ccp', holds: true } as const;
  const deviation = n.book.record('deviation-reported', about, { at: night('05:30'), words: { what: 'glass' } }).id;
  const decide = (disposition: Choice, count: number | null, time: string) =>
    n.book.record(
      'disposition-decided',
      {
        ...{ deviation, lot: batch, disposition, covers: 'this-alone', concerns: [] },
        quantity: count === null ? null : { figure: String(count), unit: 'piece' },
      },
      { at: night(time), person: lead, words: { note: 'looked at' } },
    );
  const part = (id = deviation, type: 'open-deviation' | 'recall' | 'held' = 'open-deviation') =>
    decidedPart(workingSetOf(n.book.snapshot()), batch, { id, type });
  return { n, batch, about, deviation, decide, part };
}

describe('a lot of which a part was decided on', () => {
  it('says nothing where nobody decided, nor where all of it is', () => {
    const { decide, part } = held();
    expect(part()).toBeNull();
    decide('accepted-for-use', null, '06:00');
    expect(part()).toBeNull();
  });

  it('says how much was decided on and how, and how much is left', () => {
    const { n, deviation, batch, decide, part } = held();
    decide('destroyed', 12, '06:00');
    expect(part()).toMatchObject({ decided: [{ decision: 'destroyed', pieces: 12 }], left: { pieces: 8, mg: null }, atMost: false });
    n.book.record(
      'deviation-closed',
      { deviation, staysOnHold: [batch] },
      { at: night('06:10'), person: lead, words: { review: 'done', why: 'later' } },
    );
    expect(concernText({ type: 'closed-deviation', what: 'glass', part: part() })).toBe(
      'held by a deviation that was closed; what is left of the food is still to be decided on: glass; 12 pieces destroyed; 8 pieces not decided on',
    );
  });

  it('says at most how much where a part that was decided on may be here still', () => {
    const { decide, part } = held();
    decide('destroyed', 12, '06:00');
    decide('reworked', 3, '06:05');
    const now = part();
    expect(now).toMatchObject({ left: { pieces: 8 }, atMost: true });
    expect(concernText({ type: 'open-deviation', what: null, part: now })).toMatch(
      /12 pieces destroyed, 3 pieces reworked; at most 8 pieces not decided on$/,
    );
  });

  it('says beside another concern what is gone alone, not what may be used', () => {
    const { n, about, decide, part } = held();
    const other = n.book.record('deviation-reported', about, { at: night('05:40'), words: { what: 'mould oil' } }).id;
    const recall = '0190a6d0-7b3c-7000-8000-000000000101';
    decide('accepted-for-use', 2, '06:00');
    decide('reworked', 3, '06:05');
    expect(part()).toMatchObject({
      decided: [
        { decision: 'accepted-for-use', pieces: 2 },
        { decision: 'reworked', pieces: 3 },
      ],
      atMost: true,
    });
    expect([part(other), part(recall, 'recall')]).toEqual([null, null]);
    for (const gone of ['destroyed', 'feed', 'returned-to-supplier'] as const) decide(gone, 1, '06:10');
    const beside = {
      decided: [{ decision: 'destroyed' }, { decision: 'feed' }, { decision: 'returned-to-supplier' }],
      left: { pieces: 17, mg: null },
      atMost: false,
    };
    expect(part(other)).toMatchObject(beside);
    expect(part(recall, 'recall')).toMatchObject(beside);
    expect(part(recall, 'held')).toBeNull();
  });

  it('counts each piece once, however many decisions there are', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 1, maxLength: 4 }), (counts) => {
        const { decide, part } = held();
        counts.forEach((count, i) => decide('destroyed', count, `06:0${i}`));
        const now = part();
        const all = counts.reduce((a, b) => a + b, 0);
        expect(now?.decided).toMatchObject([{ decision: 'destroyed', pieces: all }]);
        expect(now?.left).toEqual({ pieces: 20 - all, mg: null });
      }),
      { numRuns: 15 },
    );
  });
});
