import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type bakehouse, g, lead, night } from '../../../../test/fixtures/bakehouse.js';
import { heldFlour } from '../../../../test/fixtures/held-flour.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import type { PayloadFor } from '../kinds.js';
import { allowedSince, concernsOf, workingSetOf } from '@bakehouse/records';

/** Another site of the house, which sells. */
const shop = uuid(33);
type Choice = PayloadFor<'disposition-decided'>['disposition'];

/** A batch of 20 pieces that was released, and that a deviation holds since. */
function held() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const batch = n.countOut().id;
  n.release(batch);
  const report = () =>
    n.book.record(
      'deviation-reported',
      { subjectType: 'batch', subject: batch, class: 'ccp', holds: true },
      { at: night('05:30'), words: { what: 'glass' } },
    ).id;
  const decide = (deviation: string, disposition: Choice, pieces: number, time: string, options: { corrects?: string } = {}) =>
    n.book.record(
      'disposition-decided',
      {
        ...{ deviation, lot: batch, disposition, covers: 'this-alone', concerns: [] },
        quantity: { figure: String(pieces), unit: 'piece' },
      },
      { at: night(time), person: lead, words: { note: 'looked at each', ...(options.corrects ? { reason: 'a slip' } : {}) }, ...options },
    );
  const send = (pieces: number, time: string, channel: 'dispatch' | 'waste' | 'own-shop' = 'dispatch', site = uuid(3)) => {
    const lines = [{ lots: [batch], quantity: { figure: String(pieces), unit: 'piece' as const }, how: 'counted' as const }];
    const { outcome } = n.book.record(
      'sent-out',
      { channel, customer: null, unattended: false, until: null, lines },
      { at: night(time), site },
    );
    return outcome.lines.flatMap((l) => l.troubled.map((t) => t.trouble));
  };
  const on = (pieces: number, time: string) =>
    n.book.record('put-on-counter', { lot: batch, way: 'on', pieces }, { at: night(time) }).outcome.troubles;
  const off = (pieces: number, time: string) => n.book.record('put-on-counter', { lot: batch, way: 'off', pieces }, { at: night(time) });
  return { n, batch, report, decide, send, on, off };
}

const onHold = ({ n, batch }: Pick<ReturnType<typeof held>, 'n' | 'batch'>): boolean =>
  (concernsOf(workingSetOf(n.book.snapshot()), [batch]).get(batch) ?? []).length > 0;

describe('a part of a lot that somebody accepted for use', () => {
  it('may leave, all of it and no more', () => {
    const { report, decide, send } = held();
    const deviation = report();
    expect(send(1, '05:40')).toEqual(['held-lot-used']);
    decide(deviation, 'accepted-for-use', 12, '06:00');
    expect(send(12, '06:10')).toEqual([]);
    expect(send(1, '06:20')).toEqual(['held-lot-used']);
  });

  it('may leave in several parts, over the counter too, and what was destroyed was another part', () => {
    const { report, decide, send, on } = held();
    const deviation = report();
    decide(deviation, 'accepted-for-use', 12, '06:00');
    decide(deviation, 'destroyed', 8, '06:01');
    expect(on(12, '06:05')).toEqual([]);
    expect([send(5, '06:10'), send(7, '06:20'), send(1, '06:30')]).toEqual([[], [], ['held-lot-used']]);
  });

  it('is not what was thrown away of the rest, and is asked for once where a shop of the house sells it', () => {
    const { report, decide, send } = held();
    decide(report(), 'accepted-for-use', 4, '06:00');
    expect(send(6, '06:05', 'waste')).toEqual([]);
    const sells = (pieces: number, time: string) => send(pieces, time, 'dispatch', shop);
    expect([send(4, '06:10', 'own-shop'), sells(2, '06:20'), sells(2, '06:30'), sells(1, '06:40')]).toEqual([
      [],
      [],
      [],
      ['held-lot-used'],
    ]);
  });

  it('that is sold over the counter has left, and what nobody decided on stays on hold', () => {
    const { n, batch, report, decide, on, off } = held();
    const deviation = report();
    decide(deviation, 'accepted-for-use', 4, '06:00');
    expect(on(4, '06:10')).toEqual([]);
    off(0, '06:20');
    expect(onHold({ n, batch })).toBe(true);
    expect(on(4, '06:30')).toEqual(['held-lot-used']);
    off(0, '06:40');
    expect(onHold({ n, batch })).toBe(true);
  });

  it('is not used up by what went beyond an earlier acceptance and was told of', () => {
    const { report, decide, send } = held();
    const deviation = report();
    decide(deviation, 'accepted-for-use', 6, '06:00');
    expect([send(6, '06:10'), send(2, '06:20')]).toEqual([[], ['held-lot-used']]);
    decide(deviation, 'accepted-for-use', 5, '06:30');
    expect([send(5, '06:40'), send(1, '06:50')]).toEqual([[], ['held-lot-used']]);
  });

  it('is spoken for while it stands on the counter, until it comes off again', () => {
    const { report, decide, send, on, off } = held();
    decide(report(), 'accepted-for-use', 8, '06:00');
    expect([on(4, '06:10'), on(4, '06:11'), on(4, '06:12')]).toEqual([[], [], ['held-lot-used']]);
    expect(send(1, '06:15')).toEqual(['held-lot-used']);
    off(12, '06:20');
    expect(send(7, '06:30')).toEqual([]);
    expect(send(1, '06:40')).toEqual(['held-lot-used']);
  });

  it('is spoken for in a shop of the house: no more goes there, and none of it leaves elsewhere', () => {
    const { report, decide, send } = held();
    decide(report(), 'accepted-for-use', 12, '06:00');
    expect(send(8, '06:10', 'own-shop')).toEqual([]);
    expect(send(5, '06:20', 'own-shop')).toEqual(['held-lot-used']);
    expect(send(1, '06:30')).toEqual(['held-lot-used']);
  });

  it('is no more than there ever was', () => {
    const { n, batch, report } = held();
    const more = { deviation: report(), lot: batch, disposition: 'accepted-for-use' as const, covers: 'this-alone' as const, concerns: [] };
    const decide = (figure: string) =>
      n.book.refusal(
        'disposition-decided',
        { ...more, quantity: { figure, unit: 'piece' } },
        { at: night('06:00'), person: lead, words: { note: 'looked at each' } },
      );
    expect(decide('21')).toMatchObject({
      problem: 'unacceptable-value',
      acceptable: 'at most what there was of it: 20; or no amount for the whole',
    });
  });

  it('does not leave before it was accepted, nor under another deviation', () => {
    const { report, decide, send } = held();
    const [one, other] = [report(), report()];
    decide(one, 'accepted-for-use', 12, '06:00');
    expect(send(3, '06:10')).toEqual(['held-lot-used']);
    decide(other, 'accepted-for-use', 12, '06:20');
    expect([send(9, '06:30'), send(1, '06:15')]).toEqual([[], ['held-lot-used']]);
  });

  it('is never more than was accepted, however it leaves', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.array(fc.integer({ min: 1, max: 6 }), { maxLength: 5 }), (accepted, parts) => {
        const { report, decide, send } = held();
        decide(report(), 'accepted-after-correction', accepted, '06:00');
        let gone = 0;
        for (const [i, pieces] of parts.entries()) {
          const told = send(pieces, `06:${10 + i}`);
          gone += pieces;
          expect(told.includes('held-lot-used')).toBe(gone > accepted);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('a lot of which all was decided on, in parts', () => {
  const against = ({ n, batch }: ReturnType<typeof held>) =>
    (concernsOf(workingSetOf(n.book.snapshot()), [batch]).get(batch) ?? []).map((r) => r.concern.type);

  it('is on hold no longer, and no more than was accepted may leave', () => {
    const h = held();
    const deviation = h.report();
    h.decide(deviation, 'destroyed', 12, '06:00');
    h.decide(deviation, 'accepted-for-use', 4, '06:01');
    expect(against(h)).toEqual(['open-deviation']);
    h.decide(deviation, 'accepted-after-correction', 4, '06:02');
    expect(against(h)).toEqual([]);
    expect([h.send(5, '06:10'), against(h), h.send(4, '06:20')]).toEqual([[], [], ['held-lot-used']]);
  });

  it('is on hold where what is left is to be reworked', () => {
    const h = held();
    const deviation = h.report();
    h.decide(deviation, 'reworked', 12, '06:00');
    h.decide(deviation, 'accepted-for-use', 8, '06:01');
    expect(against(h)).toEqual(['open-deviation']);
  });

  it('is on hold under what it was not decided under', () => {
    const h = held();
    const [deviation] = [h.report(), h.report()];
    h.decide(deviation, 'destroyed', 12, '06:00');
    h.decide(deviation, 'accepted-for-use', 8, '06:01');
    expect(against(h)).toEqual(['open-deviation']);
  });
});

describe('an acceptance that is corrected', () => {
  const told = ({ n: { book } }: { readonly n: { readonly book: ReturnType<typeof bakehouse> } }) =>
    book.all('deviation').flatMap((d) => (d.type === 'held-lot-used' ? [[d.subjectType, d.subject, d.lot, d.at]] : []));

  it('to less than has left tells of what left beyond it, and to no less tells of nothing', () => {
    const h = held();
    const deviation = h.report();
    const { id } = h.decide(deviation, 'accepted-for-use', 12, '06:00');
    h.send(4, '06:10');
    h.send(6, '06:20');
    h.decide(deviation, 'accepted-for-use', 10, '06:00', { corrects: id });
    expect(told(h)).toEqual([]);
    const { id: corrected } = h.decide(deviation, 'accepted-for-use', 5, '06:00', { corrects: id });
    expect(told(h)).toEqual([['lot', h.batch, null, expect.any(String)]]);
    expect(corrected).not.toBe(id);
    expect(h.n.book.rebuilt()).toEqual(h.n.book.snapshot());
  });

  it('to another decision tells of what was used', () => {
    const { book, flour, deviation, accept, use } = heldFlour();
    const id = accept();
    const { make } = use('02:30', '1500');
    book.record(
      'disposition-decided',
      { deviation, lot: flour, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: g('2000') },
      { at: night('02:00'), person: lead, words: { note: 'a slip', reason: 'a slip' }, corrects: id },
    );
    expect(told({ n: { book } })).toMatchObject([['make', make, flour, expect.any(String)]]);
  });
});

it('what several decisions accept is together no more than there ever was', () => {
  const h = held();
  const deviation = h.report();
  h.decide(deviation, 'accepted-for-use', 12, '06:00');
  const { id } = h.decide(deviation, 'accepted-after-correction', 8, '06:01');
  const one = { deviation, lot: h.batch, covers: 'this-alone' as const, concerns: [], disposition: 'accepted-for-use' as const };
  const refused = (pieces: string, options: { corrects?: string } = {}) =>
    h.n.book.refusal(
      'disposition-decided',
      { ...one, quantity: { figure: pieces, unit: 'piece' } },
      {
        at: night('06:10'),
        person: lead,
        words: { note: 'looked at each', ...(options.corrects ? { reason: 'a slip' } : {}) },
        ...options,
      },
    );
  expect(refused('1')).toMatchObject({
    problem: 'unacceptable-value',
    acceptable: 'at most what there was of it: 20, with 20 accepted before; or no amount for the whole',
  });
  expect(refused('9', { corrects: id })).toMatchObject({ problem: 'unacceptable-value' });
  h.decide(h.report(), 'accepted-for-use', 20, '06:20');
});

describe('a deviation about food that left, when an acceptance of it arrives later', () => {
  const allowed = ({ n: { book } }: { readonly n: { readonly book: ReturnType<typeof bakehouse> } }) => {
    const state = workingSetOf(book.snapshot());
    return book.all('deviation').flatMap((d) => (d.type === 'held-lot-used' ? [allowedSince(state, d)] : []));
  };

  it('says that it could leave by what is on record now, as far as it was accepted by then', () => {
    const h = held();
    const deviation = h.report();
    [h.send(4, '06:10'), h.send(6, '06:20')].forEach((told) => expect(told).toEqual(['held-lot-used']));
    expect(allowed(h)).toEqual([false, false]);
    const { id } = h.decide(deviation, 'accepted-for-use', 4, '06:00');
    expect(allowed(h)).toEqual([true, false]);
    h.decide(deviation, 'accepted-for-use', 10, '06:00', { corrects: id });
    expect(allowed(h)).toEqual([true, true]);
  });

  it('says nothing where it was accepted after it had left', () => {
    const h = held();
    const deviation = h.report();
    h.send(4, '06:10');
    h.decide(deviation, 'accepted-for-use', 4, '06:20');
    expect(allowed(h)).toEqual([false]);
  });

  it('says the same of what was used in a make', () => {
    const { book, accept, use } = heldFlour();
    [use('02:30', '1500'), use('03:00', '600')].forEach(({ told }) => expect(told).toEqual(['held-lot-used']));
    accept();
    expect(allowed({ n: { book } })).toEqual([true, false]);
  });
});
