import { describe, expect, it } from '@jest/globals';
import { releaseFindings, workingSetOf } from '@bakehouse/records';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { openedOn, toldNobody } from '../../../../test/fixtures/recalls.js';

const recall = uuid(0xf02);
const by = (time: string, words: Record<string, string> = {}) => ({ at: night(time), person: lead, words });

/** Two batches of a dough that something speaks against. */
function twoBatches() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const [a, b] = [n.countOut({ pieces: 12 }).id, n.countOut({ pieces: 8, code: '6329-TIN-2' }).id];
  const codes = (batch: string) => {
    const state = workingSetOf(n.book.snapshot());
    const row = state.get('batch', batch);
    return row ? releaseFindings(row, state).map((f) => f.code) : [];
  };
  return { n, book: n.book, a, b, codes };
}

describe('a recall case is closed', () => {
  const decide = ({ book }: ReturnType<typeof twoBatches>, lot: string, time: string) =>
    book.record(
      'recall-disposition-decided',
      { recall, lot, decision: 'destroyed', covers: 'this-alone', quantity: null },
      by(time, { why: 'glass' }),
    );

  it('with what it holds and nobody decided about stated lot by lot, and why; that stays on hold', () => {
    const house = twoBatches();
    openedOn(house.book, recall, house.n.make);
    decide(house, house.a, '06:00');
    const close = (staysOnHold: string[], words = {}) =>
      house.book.refusal('recall-closed', { recall, staysOnHold, notReached: [] }, by('07:00', { ...toldNobody, ...words }));
    expect(close([])).toMatchObject({
      problem: 'undecided-food',
      field: 'payload.staysOnHold',
      acceptable: 'the 1 lot held and undecided: white tin 800 g, 6329-TIN-2',
    });
    expect(close([house.b])).toMatchObject({ field: 'words.why' });
    expect(close([house.b, uuid(0xe99)])).toMatchObject({ problem: 'not-held-by-this', field: 'payload.staysOnHold.1' });
    // What a device took to be held still, and is not, is no matter.
    const stated = { recall, staysOnHold: [house.a, house.b], notReached: [] };
    expect(house.book.record('recall-closed', stated, by('07:00', { ...toldNobody, why: 'waits for the laboratory' })).outcome).toEqual({
      ...{ staysOnHold: [house.b], notTold: ['authority', 'public'], notReached: [] },
    });
    expect(house.book.all('recallClosed')).toMatchObject([
      { recall, staysOnHold: [house.b], why: 'waits for the laboratory', closedBy: lead },
    ]);
    expect(house.codes(house.b)).toEqual(['recall']);
    expect(house.book.rebuilt()).toEqual(house.book.snapshot());
  });

  it('holds and decides nothing where it is a practice, and frees a lot whole and by itself alone', () => {
    const house = twoBatches();
    openedOn(house.book, recall, house.n.make, { practice: true });
    const refused = (of: object) =>
      house.book.refusalRaw(
        'recall-disposition-decided',
        { ...{ recall, lot: house.a, decision: 'freed', covers: 'this-alone', quantity: null }, ...of },
        by('06:00', { why: 'glass' }),
      ).problem;
    expect(refused({})).toBe('practice-holds-nothing');
    openedOn(house.book, recall, house.n.make);
    const quantity = { figure: '1', unit: 'piece' };
    expect(refused({ quantity })).toBe('whole-lot-only');
    expect(refused({ decision: 'destroyed', covers: 'what-came-of-it' })).toBe('named-food-alone');
  });

  it('with nothing to state where every lot was decided on, and in a practice', () => {
    const house = twoBatches();
    openedOn(house.book, recall, house.n.make);
    [house.a, house.b].forEach((lot, i) => decide(house, lot, `06:0${i}`));
    house.book.record('recall-closed', { recall, staysOnHold: [], notReached: [] }, by('07:00', toldNobody));
    const practice = twoBatches();
    openedOn(practice.book, recall, practice.n.make, { practice: true });
    practice.book.record('recall-closed', { recall, staysOnHold: [], notReached: [] }, by('07:00'));
  });

  it('once: a second closing says when and by whom it was closed', () => {
    const house = twoBatches();
    openedOn(house.book, recall, house.n.make, { practice: true });
    house.book.record('recall-closed', { recall, staysOnHold: [], notReached: [] }, by('07:00', toldNobody));
    const name = house.book.get('person', lead)?.name;
    expect(house.book.refusal('recall-closed', { recall, staysOnHold: [], notReached: [] }, by('07:10'))).toMatchObject({
      problem: 'already-closed',
      acceptable: `what is still open: this was closed on 25 Nov 2026${name === undefined ? '' : ` by ${name}`}`,
    });
  });

  it('and what stayed on hold is decided on in it afterwards, which the outcome says', () => {
    const house = twoBatches();
    openedOn(house.book, recall, house.n.make);
    expect(decide(house, house.a, '06:00').outcome).toMatchObject({ closedAt: null });
    house.book.record('recall-closed', { recall, staysOnHold: [house.b], notReached: [] }, by('07:00', { ...toldNobody, why: 'waits' }));
    expect(decide(house, house.b, '08:00').outcome).toMatchObject({ closedAt: house.book.all('recallClosed')[0]?.at });
    // To correct the conclusion states what was stated then: what was decided since does not make it wrong.
    const [closing] = house.book.all('recallClosed');
    house.book.record(
      'recall-closed',
      { recall, staysOnHold: [house.b], notReached: [] },
      { ...by('07:00', { ...toldNobody, why: 'waits', conclusion: 'two batches', reason: 'was left out' }), corrects: closing?.id ?? '' },
    );
  });
});

describe('a deviation is closed', () => {
  const report = ({ book, n }: ReturnType<typeof twoBatches>) =>
    book.record(
      'deviation-reported',
      { subjectType: 'make', subject: n.make, class: 'ccp', holds: true },
      { at: night('05:01'), words: { what: 'glass' } },
    ).id;
  const accept = ({ book }: ReturnType<typeof twoBatches>, deviation: string, lot: string, time: string) =>
    book.record(
      'disposition-decided',
      { deviation, lot, disposition: 'accepted-for-use', covers: 'this-alone', concerns: [], quantity: null },
      by(time),
    );

  it('once every batch of it was decided on by its own lot', () => {
    const house = twoBatches();
    const deviation = report(house);
    accept(house, deviation, house.a, '06:00');
    expect(house.book.refusal('deviation-closed', { deviation, staysOnHold: [] }, by('06:30'))).toMatchObject({
      problem: 'undecided-food',
      acceptable: 'the 1 lot held and undecided: white tin 800 g, 6329-TIN-2',
    });
    accept(house, deviation, house.b, '06:10');
    house.book.record('deviation-closed', { deviation, staysOnHold: [] }, by('06:30'));
    expect([house.codes(house.a), house.codes(house.b)]).toEqual([[], []]);
  });

  it('with what stays on hold stated, which a release calls by its name: closed, and not decided on', () => {
    const house = twoBatches();
    const deviation = report(house);
    accept(house, deviation, house.a, '06:00');
    expect(house.codes(house.b)).toEqual(['open-deviation']);
    expect(house.book.refusal('deviation-closed', { deviation, staysOnHold: [house.b] }, by('06:30'))).toMatchObject({
      field: 'words.why',
    });
    house.book.record('deviation-closed', { deviation, staysOnHold: [house.b] }, by('06:30', { why: 'to be sieved tomorrow' }));
    expect(house.codes(house.b)).toEqual(['closed-deviation']);
    expect(house.n.refused(house.b, '06:40').acceptable).toContain(
      'held by a deviation that was closed, what is left of the food is still to be decided on: glass',
    );
    accept(house, deviation, house.b, '07:00');
    expect(house.codes(house.b)).toEqual([]);
    expect(house.book.refusal('deviation-closed', { deviation, staysOnHold: [] }, by('07:10'))).toMatchObject({
      problem: 'already-closed',
      acceptable: expect.stringContaining('this was closed on 25 Nov 2026'),
    });
  });

  it('as used like it is while a recall holds the same food: the deviation ends, and the recall holds it on, everywhere', () => {
    const house = twoBatches();
    const deviation = report(house);
    openedOn(house.book, recall, house.n.make);
    for (const lot of [house.a, house.b]) accept(house, deviation, lot, '06:00');
    house.book.record('deviation-closed', { deviation, staysOnHold: [] }, by('06:30'));
    expect([house.codes(house.a), house.codes(house.b)]).toEqual([['recall'], ['recall']]);
    expect(house.book.refusal('recall-closed', { recall, staysOnHold: [], notReached: [] }, by('07:00'))).toMatchObject({
      problem: 'undecided-food',
    });
  });

  it('not without any answer where all of the food is gone', () => {
    const house = twoBatches();
    const deviation = report(house);
    for (const [lot, count] of [
      [house.a, 12],
      [house.b, 8],
    ] as const)
      house.book.record(
        'sent-out',
        {
          channel: 'waste',
          customer: null,
          unattended: false,
          until: null,
          lines: [{ lots: [lot], quantity: { figure: String(count), unit: 'piece' }, how: 'counted' }],
        },
        { at: night('06:00') },
      );
    expect(house.book.refusal('deviation-closed', { deviation, staysOnHold: [] }, by('06:30')).problem).toBe('not-answered');
  });
});
