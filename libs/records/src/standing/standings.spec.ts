import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { concernsOf, workingSetOf, type Reaching, type Snapshot } from '@bakehouse/records';
import {
  bakehouse,
  delivered,
  g,
  lead,
  materials,
  night,
  places,
  plan,
  points,
  tartFormula,
  tartVersion,
  whiteVersion,
} from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { openedOn, toldNobody } from '../../../../test/fixtures/recalls.js';

/** Almonds go into a filling, the filling into a dough, the dough into tins: held at the start, it is held at the end. */
function chain(takes: string | null = null) {
  const book = bakehouse();
  const almonds = uuid(0xe01);
  const lines = [delivered(almonds, materials.flour)];
  book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
  const make = (formulaVersion: string, time: string) =>
    book.record(
      'make-begun',
      { formulaVersion, station: places.mixer, plan: takes, bakeDay: '2026-11-25', plannedMg: null },
      { at: night(time) },
    ).id;
  const weigh = (into: string, lot: string | null, grams: string, time: string) =>
    book.record(
      'weighed-in',
      { make: into, lines: [{ material: materials.flour, lot, quantity: g(grams), how: 'weighed', type: 'ingredient' }] },
      { at: night(time) },
    ).id;
  const filling = make(tartVersion, '01:30');
  const weighing = weigh(filling, almonds, '500', '01:35');
  const dough = make(whiteVersion, '02:00');
  weigh(dough, filling, '400', '02:05');
  weigh(dough, null, '19000', '02:06');
  const run = uuid(0xe10);
  const runs = [{ run, product: materials.tin, heads: null, pieces: 20, scaling: g('910') }];
  const divided = book.record(
    'divided',
    { make: dough, quantity: null, oldDough: g('1000'), scrap: null, runs },
    { at: night('03:30') },
  ).id;
  const countOut = (pieces: number, code: string) =>
    book.record(
      'batch-counted-out',
      { run, loads: [], pieces, rejects: 0, code, bakedOn: '2026-11-25', bestBefore: '2026-11-28', useBy: null },
      { at: night('05:00') },
    ).id;
  const batch = countOut(20, '6329-TIN');
  const reaching = (lot: string, at: string | null = null): readonly Reaching[] =>
    concernsOf(workingSetOf(book.snapshot()), [lot], at).get(lot) ?? [];
  const types = (lot: string) => reaching(lot).map((r) => r.concern.type);
  const hold = (lot: string, time = '05:10') =>
    book.record('hold-placed', { lot, deviation: null }, { at: night(time), words: { because: 'glass' } }).id;
  return { book, almonds, filling, weighing, dough, divided, run, batch, countOut, weigh, reaching, types, hold };
}

describe('a concern', () => {
  it('travels with the food to everything that came of it, old dough too, and by which lots', () => {
    const c = chain();
    const hold = c.hold(c.almonds);
    const oldDough = c.book.all('lot').find((l) => l.type === 'old-dough')?.id ?? '';
    for (const lot of [c.almonds, c.filling, c.dough, c.run, c.batch, oldDough]) expect(c.types(lot)).toEqual(['held']);
    expect(c.reaching(c.batch)).toMatchObject([{ concern: { id: hold, lot: c.almonds, what: 'glass' }, by: c.run, certain: true }]);
    c.book.record('hold-lifted', { hold }, { at: night('05:20'), words: { why: 'it was the jar of another house' } });
    for (const lot of [c.almonds, c.filling, c.dough, c.run, c.batch, oldDough]) expect(c.types(lot)).toEqual([]);
  });

  it('does not reach what it never went into', () => {
    const c = chain();
    c.hold(c.dough);
    expect([c.types(c.almonds), c.types(c.filling)]).toEqual([[], []]);
  });

  it('of a case holds what it was opened on, whatever comes of it later, and nothing in a practice', () => {
    const c = chain();
    openedOn(c.book, uuid(0xf01), c.almonds, { practice: true });
    expect(c.types(c.batch)).toEqual([]);
    openedOn(c.book, uuid(0xf02), c.almonds);
    const late = c.book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('05:30') },
    ).id;
    c.weigh(late, c.almonds, '10', '05:31');
    for (const lot of [c.almonds, c.batch, late]) expect(c.types(lot)).toEqual(['recall']);
  });

  it('of a case is ended lot by lot in that case, and only as far as the decision covers', () => {
    const c = chain();
    const recall = openedOn(c.book, uuid(0xf02), c.almonds);
    const decide = (lot: string, covers: 'this-alone' | 'what-came-of-it') =>
      c.book.record(
        'recall-disposition-decided',
        { recall, lot, decision: 'freed', covers, quantity: null },
        { at: night('06:00'), person: lead, words: { why: 'tested clear' } },
      );
    decide(c.filling, 'this-alone');
    expect([c.types(c.almonds), c.types(c.filling), c.types(c.dough), c.types(c.batch)]).toEqual([['recall'], [], ['recall'], ['recall']]);
    decide(c.dough, 'what-came-of-it');
    expect([c.types(c.almonds), c.types(c.dough), c.types(c.run), c.types(c.batch)]).toEqual([['recall'], [], [], []]);
    c.book.record(
      'recall-closed',
      { recall, staysOnHold: [c.almonds], notReached: [] },
      { at: night('07:00'), person: lead, words: { ...toldNobody, conclusion: 'done', why: 'the jar is at the laboratory' } },
    );
    expect(c.types(c.almonds)).toEqual(['recall']);
  });

  it('of a deviation is ended by a decision about the subject alone there, and by one that covers what came of it everywhere', () => {
    const c = chain();
    const deviation = c.book.record(
      'deviation-reported',
      { subjectType: 'make', subject: c.dough, class: 'ccp', holds: true },
      { at: night('03:00'), words: { what: 'glass' } },
    ).id;
    const decide = (lot: string | null, covers: 'this-alone' | 'what-came-of-it') =>
      c.book.record(
        'disposition-decided',
        { deviation, lot, disposition: 'accepted-for-use', covers, concerns: [], quantity: null },
        { at: night('05:30'), person: lead },
      );
    expect([c.types(c.dough), c.types(c.batch)]).toEqual([['open-deviation'], ['open-deviation']]);
    decide(null, 'this-alone');
    expect([c.types(c.dough), c.types(c.batch)]).toEqual([[], ['open-deviation']]);
    decide(c.batch, 'this-alone');
    expect([c.types(c.run), c.types(c.batch)]).toEqual([['open-deviation'], []]);
    decide(null, 'what-came-of-it');
    expect([c.types(c.run), c.types(c.batch)]).toEqual([[], []]);
  });

  it('is not ended by closing the deviation', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    n.loads.forEach((l) => n.core(l, '90'));
    for (const d of n.book.all('deviation')) {
      n.book.record(
        'disposition-decided',
        {
          deviation: d.id,
          lot: null,
          disposition: 'destroyed',
          covers: 'this-alone',
          concerns: [],
          quantity: { figure: '2', unit: 'piece' },
        },
        { at: night('05:10'), person: lead },
      );
      n.book.record(
        'deviation-closed',
        { deviation: d.id, staysOnHold: [id] },
        { at: night('05:20'), person: lead, words: { why: 'to be tasted' } },
      );
    }
    expect(n.refused(id)).toMatchObject({ problem: 'not-releasable' });
  });

  it('begins where goods were refused, and where the sums cannot be', () => {
    const c = chain();
    c.book.record('receipt-decided', { lot: c.almonds, decision: 'refused' }, { at: night('05:10') });
    expect(c.types(c.batch)).toEqual(['refused']);
    const other = chain();
    other.countOut(4, '6329-TWO');
    expect([other.types(other.dough), other.types(other.run), other.types(other.batch)]).toEqual([
      [],
      ['more-baked-than-divided'],
      ['more-baked-than-divided'],
    ]);
    const empty = oneBatch({ weighed: false });
    const batch = empty.countOut().id;
    empty.loads.forEach((l) => empty.core(l, '95.1'));
    expect(empty.refused(batch).acceptable).toContain('nothing was weighed in');
    empty.book.record(
      'weighed-in',
      { make: empty.make, lines: [{ material: materials.flour, lot: null, quantity: g('2000'), how: 'weighed', type: 'ingredient' }] },
      { at: night('02:31') },
    );
    expect(empty.refused(batch).acceptable).toContain('more came out than went in');
  });

  it.each([
    ['10000', ['more-out-than-in']],
    ['18500', []],
  ] as const)('holds a dough with a line that nobody weighed to the %s g that were weighed when it was divided', (grams, expected) => {
    const c = oneBatch({ weighed: false });
    const lines = [{ material: materials.flour, lot: null, quantity: null, how: 'weighed', type: 'ingredient' } as const];
    c.book.record('weighed-in', { make: c.make, lines }, { at: night('02:31') });
    const runs = [{ run: uuid(0xe99), product: materials.tin, heads: null, pieces: 20, scaling: g('910') }];
    const divided = { make: c.make, quantity: g(grams), oldDough: null, scrap: null, runs };
    const first = c.book.all('divided')[0]?.id ?? '';
    c.book.record('divided', divided, { at: night('03:31'), corrects: first, words: { reason: 'weighed after all' } });
    const state = workingSetOf(c.book.snapshot());
    expect((concernsOf(state, [c.make]).get(c.make) ?? []).map((r) => r.concern.type)).toEqual(expected);
  });

  it('is on record from when it began: a use before a hold was no use of a held lot, and is found all the same', () => {
    const c = chain();
    c.hold(c.almonds, '05:10');
    const state = workingSetOf(c.book.snapshot());
    expect(concernsOf(state, [c.almonds], '2026-11-25T02:00:00.000Z').get(c.almonds)).toBeUndefined();
    expect(c.types(c.batch)).toEqual(['held']);
  });

  it('is a *must* of a make that went in and was not read by then, as the filling’s', () => {
    const c = chain(plan);
    const core = c.book.get('controlPoint', points.tinCore)?.content;
    if (!core) throw new Error('no control point');
    const content = {
      ...core,
      key: 'boiled',
      parameter: 'filling boiled',
      formulas: [tartFormula],
      products: [],
      frequency: 'each-make' as const,
    };
    c.book.given('controlPoint', uuid(0xb90), { plan, key: 'boiled', content });
    const refused = () => c.book.refusal('released-by-rule', { batch: c.batch }, { at: night('05:30') }).acceptable;
    expect(refused()).toContain('was not taken before it was used: filling boiled');
    expect([c.types(c.filling), c.types(c.dough), c.types(c.batch)]).toEqual([['not-read'], ['not-read'], ['not-read']]);
    const read = (figure: string) =>
      c.book.record(
        'reading-taken',
        {
          subjectType: 'make',
          subject: c.filling,
          point: uuid(0xb90),
          measured: 'core',
          parameter: 'filling boiled',
          instrument: null,
          value: { figure, unit: 'degC' },
          yes: null,
          seconds: null,
        },
        { at: night('01:50') },
      );
    read('70');
    expect(c.types(c.batch)).toEqual(['open-deviation']);
    expect(refused()).toContain('open deviation: filling boiled');
  });

  it('reaches the same lots whatever order the rows are in', () => {
    const c = chain();
    c.hold(c.filling);
    openedOn(c.book, uuid(0xf02), c.almonds);
    const snapshot = c.book.snapshot();
    const lots = snapshot.lot.map((l) => l.id);
    const told = (of: Snapshot, ids: readonly string[]) =>
      [...concernsOf(workingSetOf(of), ids)].map(([lot, r]) => `${lot} ${r.map((x) => x.concern.id).sort()}`).sort();
    const expected = told(snapshot, lots);
    expect(expected.length).toBeGreaterThan(5);
    fc.assert(
      fc.property(fc.shuffledSubarray(snapshot.flow.slice(), { minLength: snapshot.flow.length }), (flow) => {
        expect(told({ ...snapshot, flow }, lots)).toEqual(expected);
        // asked one by one, as the door does, it is the same as asked for all at once, as a screen does
        expect(lots.flatMap((lot) => told({ ...snapshot, flow }, [lot])).sort()).toEqual(expected);
      }),
      { numRuns: 50 },
    );
  });
});
