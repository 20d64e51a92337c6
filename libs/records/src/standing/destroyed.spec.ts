import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { leftOf, movementsOf, releaseFindings, surelyGone, workingSetOf, concernsOf } from '@bakehouse/records';
import { bakehouse, delivered, g, lead, materials, night, places, row, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { openedOn } from '../../../../test/fixtures/recalls.js';
import type { PayloadFor } from '../kinds.js';

type Night = ReturnType<typeof oneBatch>;
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });
const recall = uuid(0xf02);

/** A batch of 20 pieces of a dough that a case was opened on. */
function inRecall() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const batch = n.countOut().id;
  openedOn(n.book, recall, n.make);
  return { n, batch };
}
const decide = (n: Night, lot: string, decision: 'freed' | 'destroyed', quantity: number | null, time: string) =>
  n.book.record(
    'recall-disposition-decided',
    {
      recall,
      lot,
      decision,
      covers: decision === 'freed' ? 'what-came-of-it' : 'this-alone',
      quantity: quantity === null ? null : pieces(quantity),
    },
    { at: night(time), person: lead, words: { why: 'decided' } },
  ).id;
const throwAway = (n: Night, lot: string, count: number, time: string) =>
  n.book.record(
    'sent-out',
    { channel: 'waste', customer: null, unattended: false, until: null, lines: [{ lots: [lot], quantity: pieces(count), how: 'counted' }] },
    { at: night(time) },
  );

/** How a batch stands: what is left of it, whether it is surely gone, what reaches it, and what keeps it from leaving. */
function standing(n: Night, lot: string) {
  const state = workingSetOf(n.book.snapshot());
  const of = state.get('batch', lot);
  return {
    left: leftOf(state.get('lot', lot)?.pieces ?? null, movementsOf(state, lot, row('12:00'), { oneOfSeveral: 'left-out' }), 'pieces'),
    gone: surelyGone(state, lot, row('12:00')),
    concerns: (concernsOf(state, [lot]).get(lot) ?? []).map((r) => r.concern.type),
    findings: of ? releaseFindings(of, state).map((f) => f.code) : [],
  };
}

describe('food that was destroyed', () => {
  it('in parts is out of the house, each part once, whatever is decided upstream', () => {
    const { n, batch } = inRecall();
    decide(n, batch, 'destroyed', 12, '06:00');
    expect(standing(n, batch)).toMatchObject({ left: 8, gone: false, concerns: ['recall'] });
    decide(n, batch, 'destroyed', 8, '06:05');
    expect(standing(n, batch)).toMatchObject({ left: 0, gone: true });
    decide(n, n.make, 'freed', null, '06:10');
    expect(standing(n, batch)).toEqual({ left: 0, gone: true, concerns: [], findings: ['destroyed'] });
    expect(n.refused(batch, '06:20')).toMatchObject({
      problem: 'not-releasable',
      acceptable: 'nothing open; there is: all of it was destroyed',
    });
    expect(n.book.refusal('released-by-exception', { batch }, { at: night('06:20'), person: lead, words: { why: 'x' } }).problem).toBe(
      'all-destroyed',
    );
  });

  it('whole is all that was left then, however much that was, and is told when it arrives', () => {
    const { n, batch } = inRecall();
    decide(n, batch, 'destroyed', null, '06:00');
    decide(n, n.make, 'freed', null, '06:10');
    expect(standing(n, batch)).toEqual({ left: 0, gone: true, concerns: [], findings: ['destroyed'] });
    // What had left before changes nothing, even where it is told afterwards.
    throwAway(n, batch, 5, '05:30');
    expect(standing(n, batch)).toMatchObject({ left: 0, gone: true, concerns: [] });
    // What left afterwards was not there to leave.
    throwAway(n, batch, 1, '06:30');
    expect(standing(n, batch)).toMatchObject({ left: -1, gone: false, concerns: ['more-gone-than-there-was'] });
  });

  it('beyond what there was is said, and holds what there may be, until a record puts it right', () => {
    const { n, batch } = inRecall();
    decide(n, batch, 'destroyed', 12, '06:00');
    const second = decide(n, batch, 'destroyed', 12, '06:05');
    decide(n, n.make, 'freed', null, '06:10');
    expect(standing(n, batch)).toMatchObject({ left: -4, gone: false, concerns: ['more-gone-than-there-was'] });
    expect(n.refused(batch, '06:20').acceptable).toContain('more was destroyed, used or sent out than there was');
    n.book.record('entry-withdrawn', {}, { at: night('06:30'), corrects: second, words: { reason: 'typed twice' } });
    expect(standing(n, batch)).toEqual({ left: 8, gone: false, concerns: [], findings: [] });
  });

  it('is said where the same food is recorded as waste besides', () => {
    const { n, batch } = inRecall();
    decide(n, batch, 'destroyed', 15, '06:00');
    throwAway(n, batch, 15, '06:05');
    expect(standing(n, batch)).toMatchObject({ left: -10, gone: false, concerns: ['more-gone-than-there-was', 'recall'] });
  });

  it('comes back when the decision is withdrawn', () => {
    const { n, batch } = inRecall();
    const decision = decide(n, batch, 'destroyed', null, '06:00');
    n.book.record('entry-withdrawn', {}, { at: night('06:30'), corrects: decision, words: { reason: 'another batch' } });
    expect(standing(n, batch)).toMatchObject({ left: 20, gone: false, concerns: ['recall'] });
    expect(n.book.rebuilt()).toEqual(n.book.snapshot());
  });

  it('is the same state whatever order the decisions come in', () => {
    const decisions = [
      { lot: 'batch', decision: 'destroyed', quantity: 5, time: '06:00' },
      { lot: 'batch', decision: 'destroyed', quantity: 7, time: '06:02' },
      { lot: 'make', decision: 'freed', quantity: null, time: '06:05' },
      { lot: 'batch', decision: 'destroyed', quantity: null, time: '06:08' },
    ] as const;
    const after = (order: readonly (typeof decisions)[number][]) => {
      const { n, batch } = inRecall();
      for (const d of order) decide(n, d.lot === 'batch' ? batch : n.make, d.decision, d.quantity, d.time);
      return standing(n, batch);
    };
    fc.assert(
      fc.property(fc.subarray([...decisions]), fc.infiniteStream(fc.nat()), (some, chance) => {
        const shuffled = [...some].map((d) => ({ d, by: chance.next().value })).sort((a, b) => a.by - b.by);
        expect(after(shuffled.map(({ d }) => d))).toEqual(after(some));
      }),
      { numRuns: 30 },
    );
  });
});

describe('food of a deviation that was destroyed', () => {
  const deviationOn = (n: Night, subjectType: 'make' | 'load' | 'site', subject: string) =>
    n.book.record(
      'deviation-reported',
      { subjectType, subject, class: 'ccp', holds: true },
      { at: night('05:01'), words: { what: 'glass' } },
    ).id;
  const payload = (
    deviation: string,
    lot: string | null,
    quantity: number | null,
    covers: 'this-alone' | 'what-came-of-it' = 'this-alone',
  ): PayloadFor<'disposition-decided'> => ({
    deviation,
    lot,
    disposition: 'destroyed',
    covers,
    concerns: [],
    quantity: quantity === null ? null : pieces(quantity),
  });

  it('is out of the house by its own lot, and stays out when the make is accepted with what came of it', () => {
    const n = oneBatch();
    n.loads.forEach((l) => n.core(l, '95.1'));
    const batch = n.countOut().id;
    const deviation = deviationOn(n, 'make', n.make);
    n.book.record('disposition-decided', payload(deviation, batch, 12), { at: night('06:00'), person: lead });
    n.book.record('disposition-decided', payload(deviation, batch, 8), { at: night('06:01'), person: lead });
    n.book.record(
      'disposition-decided',
      { deviation, lot: null, disposition: 'accepted-for-use', covers: 'what-came-of-it', concerns: [], quantity: null },
      { at: night('06:05'), person: lead },
    );
    expect(standing(n, batch)).toEqual({ left: 0, gone: true, concerns: [], findings: ['destroyed'] });
  });

  it('covers the named food alone: what was made of it is decided on by its own lot', () => {
    const n = oneBatch();
    n.countOut();
    const deviation = deviationOn(n, 'make', n.make);
    expect(
      n.book.refusal('disposition-decided', payload(deviation, null, null, 'what-came-of-it'), { at: night('06:00'), person: lead }),
    ).toMatchObject({ problem: 'named-food-alone', field: 'payload.covers', acceptable: expect.stringContaining('by its own lot') });
  });

  it('of a load is taken off the batch that was baked in it, and the lot is asked for where there are several', () => {
    const n = oneBatch();
    const batch = n.countOut({ pieces: 10 }).id;
    const deviation = deviationOn(n, 'load', n.loads[0]);
    // The batch came of another load as well: how much of it was this one is for somebody to say.
    expect(n.book.refusal('disposition-decided', payload(deviation, null, null), { at: night('06:00'), person: lead })).toMatchObject({
      problem: 'amount-not-said',
      field: 'payload.quantity',
    });
    n.book.record('disposition-decided', payload(deviation, null, 2), { at: night('06:00'), person: lead });
    expect(standing(n, batch).left).toBe(8);
    const other = n.countOut({ pieces: 10, code: '6329-TIN-2' }).id;
    expect(n.book.refusal('disposition-decided', payload(deviation, null, 2), { at: night('06:01'), person: lead })).toMatchObject({
      problem: 'lot-not-said',
      field: 'payload.lot',
      acceptable: expect.stringContaining('6329-TIN-2'),
    });
    n.book.record('disposition-decided', payload(deviation, other, 2), { at: night('06:02'), person: lead });
    expect([standing(n, batch).left, standing(n, other).left]).toEqual([8, 8]);
  });

  it('of a whole delivery is every lot of it', () => {
    const book = bakehouse();
    const lots = [uuid(0xe01), uuid(0xe02)];
    const delivery = book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: lots.map((lot) => delivered(lot, materials.flour)) },
      { at: night('01:00') },
    ).id;
    const deviation = book.record(
      'deviation-reported',
      { subjectType: 'delivery', subject: delivery, class: 'ccp', holds: true },
      { at: night('01:10'), words: { what: 'wet pallet' } },
    ).id;
    book.record('disposition-decided', payload(deviation, null, null), { at: night('02:00'), person: lead });
    const state = workingSetOf(book.snapshot());
    expect(lots.map((lot) => surelyGone(state, lot, row('03:00')))).toEqual([true, true]);
    expect(book.all('departure').map((d) => [d.channel, d.decided])).toEqual([
      ['waste', 'rest'],
      ['waste', 'rest'],
    ]);
  });

  it('is all of a make by the weight that came out of it: what evaporated is not there to be held', () => {
    const n = oneBatch();
    const custard = n.book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: places.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('01:30') },
    ).id;
    n.book.record(
      'weighed-in',
      { make: custard, lines: [{ material: materials.flour, lot: null, quantity: g('4488'), how: 'weighed', type: 'ingredient' }] },
      { at: night('01:35') },
    );
    n.book.record('make-ended', { make: custard, quantity: g('4396'), how: 'weighed' }, { at: night('02:00') });
    const deviation = deviationOn(n, 'make', custard);
    n.book.record('disposition-decided', { ...payload(deviation, null, null), quantity: g('4396') }, { at: night('06:00'), person: lead });
    expect(surelyGone(workingSetOf(n.book.snapshot()), custard, row('07:00'))).toBe(true);
    n.book.record('deviation-closed', { deviation, staysOnHold: [] }, { at: night('07:00'), person: lead });
  });

  it('is measured as its lot is', () => {
    const n = oneBatch();
    const batch = n.countOut().id;
    const deviation = deviationOn(n, 'make', n.make);
    expect(
      n.book.refusal('disposition-decided', { ...payload(deviation, batch, 1), quantity: g('910') }, { at: night('06:00'), person: lead }),
    ).toMatchObject({ problem: 'unacceptable-value', field: 'payload.quantity', acceptable: 'pieces' });
  });
});
