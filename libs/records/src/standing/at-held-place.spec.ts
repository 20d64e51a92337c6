import { concernsOf, workingSetOf, type PayloadFor } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { bakehouse, delivered, g, lead, materials, night, places, row, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type Book } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const because = { words: { because: 'a light broke' }, person: lead };
type Held = Partial<PayloadFor<'place-put-on-hold'>>;
const hold = (book: Book, of: Held = {}, time = '12:00'): string =>
  book.record('place-put-on-hold', { place: places.porch, from: row('03:00'), until: null, ...of }, { at: night(time), ...because }).id;
const against = (book: Book, lot: string) => (concernsOf(workingSetOf(book.snapshot()), [lot]).get(lot) ?? []).map((r) => r.concern);
const isHeld = (book: Book, lot: string): boolean => against(book, lot).length > 0;

const sack = uuid(0xe51);
function withSack(): Book {
  const book = bakehouse();
  const lines = [delivered(sack, materials.flour)];
  book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('00:30') });
  return book;
}
const moved = (book: Book, to: string, time: string, of: { from?: string; some?: boolean } = {}) =>
  book.record(
    'lots-moved',
    { to, lines: [{ lot: sack, from: of.from ?? null, quantity: of.some ? g('100') : null, how: 'weighed' }] },
    { at: night(time) },
  );
const opened = (book: Book, station: string, time: string) =>
  book.record('lot-opened', { station, material: materials.flour, lot: sack, beside: false }, { at: night(time) });
const dough = (book: Book, time: string, station: string = places.mixer): string => {
  const begun = { formulaVersion: whiteVersion, station, plan: null, bakeDay: '2026-11-25', plannedMg: null };
  const { id: make } = book.record('make-begun', begun, { at: night(time) });
  const lines = [{ material: materials.flour, lot: sack, quantity: g('1000'), how: 'weighed', type: 'ingredient' }] as const;
  book.record('weighed-in', { make, lines: [...lines] }, { at: night(time) });
  return make;
};

/** The design's table of concerns, row *hold by hand*: on a place and a period. */
describe('a place on hold', () => {
  it.each<[string, (book: Book) => unknown, boolean]>([
    ['carried there in time', (b) => moved(b, places.porch, '04:00'), true],
    ['carried there before, and still there', (b) => moved(b, places.porch, '01:00'), true],
    ['carried away before, all of it', (b) => [moved(b, places.porch, '01:00'), moved(b, places.prover, '02:00')], false],
    ['carried away before, some of it', (b) => [moved(b, places.porch, '01:00'), moved(b, places.prover, '02:00', { some: true })], true],
    ['of which only is known that it was carried away from there', (b) => moved(b, places.prover, '04:00', { from: places.porch }), true],
    ['carried away from there before', (b) => moved(b, places.prover, '02:00', { from: places.porch }), false],
    ['opened there', (b) => opened(b, places.porch, '02:00'), true],
    [
      'opened there, and empty before',
      (b) => [
        opened(b, places.porch, '01:00'),
        b.record('lot-emptied', { station: places.porch, lot: sack, left: null }, { at: night('02:00') }),
      ],
      false,
    ],
    ['counted there', (b) => b.record('lot-counted', { lot: sack, place: places.porch, quantity: g('9') }, { at: night('04:00') }), true],
    [
      'not found there',
      (b) => b.record('lot-counted', { lot: sack, place: places.porch, quantity: g('0') }, { at: night('04:00') }),
      false,
    ],
    ['at another place', (b) => moved(b, places.prover, '04:00'), false],
    ['nowhere that anybody recorded', () => undefined, false],
  ])('holds a lot that was %s: %#', (_where, record, held) => {
    const book = withSack();
    record(book);
    hold(book);
    expect(isHeld(book, sack)).toBe(held);
  });

  it.each<[string, Held, boolean]>([
    ['until before it came', { until: row('03:30') }, false],
    ['until after', { until: row('04:30') }, true],
    ['from after it left', { from: row('06:00') }, false],
  ])('%s', (_when, of, held) => {
    const book = withSack();
    moved(book, places.porch, '04:00');
    moved(book, places.prover, '05:00');
    hold(book, of);
    expect(isHeld(book, sack)).toBe(held);
  });

  it('holds what stands in something within it', () => {
    const book = withSack();
    book.given('place', places.tub, { name: 'tub', type: 'vessel', within: places.porch, since: row('00:00') });
    opened(book, places.tub, '04:00');
    hold(book);
    expect(isHeld(book, sack)).toBe(true);
  });

  it('holds what was made of it there from then on, and not what was taken of it before', () => {
    const book = withSack();
    moved(book, places.porch, '01:00');
    const [before, after] = [dough(book, '02:00'), dough(book, '04:00')];
    hold(book);
    expect([isHeld(book, before), isHeld(book, after)]).toEqual([false, true]);
  });

  it('holds a dough that stood there, and what was divided from it, and none that was divided before', () => {
    const n = oneBatch();
    const { id: batch } = n.countOut();
    const { id } = n.book.record(
      'place-put-on-hold',
      { place: places.mixer, from: row('03:10'), until: row('03:20') },
      { at: night('12:00'), ...because },
    );
    expect([n.make, n.run, batch].map((lot) => against(n.book, lot).map((c) => c.id))).toEqual([[id], [id], [id]]);
    const later = oneBatch();
    hold(later.book, { place: places.mixer, from: row('03:40') });
    expect(isHeld(later.book, later.make)).toBe(false);
  });

  it('holds the batches of the loads that were in the oven, and no other', () => {
    const n = oneBatch();
    const out = (load: string, time: string) => n.book.record('load-stepped', { load, step: 'out', minutes: null }, { at: night(time) });
    out(n.loads[0], '04:20');
    out(n.loads[1], '04:50');
    const first = n.countOut({ loads: [n.loads[0]], pieces: 10, code: 'ONE' }).id;
    const second = n.countOut({ loads: [n.loads[1]], pieces: 10, code: 'TWO' }).id;
    hold(n.book, { place: places.deckOven, from: row('04:30'), until: row('04:40') });
    expect([isHeld(n.book, first), isHeld(n.book, second)]).toEqual([false, true]);
  });

  it('perhaps holds what was in an oven whose deck nobody named, where one deck is on hold', () => {
    const n = oneBatch();
    n.book.given('place', places.deck1, { name: 'deck 1', type: 'deck', within: places.deckOven, since: row('00:00') });
    const { id: batch } = n.countOut();
    hold(n.book, { place: places.deck1, from: row('04:30') });
    expect(against(n.book, batch).map((c) => c.certain)).toEqual([false]);
  });

  it('holds runs that stood in a prover, until they came out', () => {
    const n = oneBatch();
    const passed = (way: 'in' | 'out', time: string) =>
      n.book.record(
        'stage-passed',
        { subjects: [{ type: 'run', id: n.run }], place: places.prover, step: 'prove', way },
        { at: night(time) },
      );
    passed('in', '03:31');
    passed('out', '04:05');
    hold(n.book, { place: places.prover, from: row('04:06') });
    expect(isHeld(n.book, n.run)).toBe(false);
    hold(n.book, { place: places.prover, from: row('04:00'), until: row('04:01') });
    expect(isHeld(n.book, n.run)).toBe(true);
  });

  it('holds the sack that a lot without a name turned out to be', () => {
    const book = withSack();
    const { outcome } = book.record(
      'lot-opened',
      { station: places.porch, material: materials.flour, lot: null, beside: false },
      { at: night('04:00') },
    );
    const placeholder = outcome.lot;
    hold(book);
    expect(isHeld(book, sack)).toBe(false);
    book.record('lot-identified', { lot: placeholder, code: null, same: sack, delivery: null }, { at: night('05:00') });
    expect(isHeld(book, sack)).toBe(true);
  });

  it('may be used again: what was there stays on hold, and what comes later is not', () => {
    const [early, late] = [withSack(), withSack()];
    for (const book of [early, late]) {
      const id = hold(book, {}, '03:30');
      moved(book, places.porch, book === early ? '04:00' : '06:00');
      book.record('place-hold-ended', { hold: id }, { at: night('05:00'), person: lead, words: { why: 'cleaned' } });
      expect(book.refusal('place-hold-ended', { hold: id }, { at: night('05:30'), person: lead, words: { why: 'x' } }).problem).toBe(
        'already-lifted',
      );
    }
    expect([isHeld(early, sack), isHeld(late, sack)]).toEqual([true, false]);
  });

  it('ends for a lot by a signed decision about it, alone or with what came of it, and by none that it does not reach', () => {
    const book = withSack();
    moved(book, places.porch, '01:00');
    const make = dough(book, '04:00');
    const id = hold(book);
    const accept = (lot: string, covers: 'this-alone' | 'what-came-of-it') =>
      book.record('food-at-place-accepted', { hold: id, lot, covers }, { at: night('12:30'), person: lead, words: { why: 'in its bag' } });
    accept(sack, 'this-alone');
    expect([isHeld(book, sack), isHeld(book, make)]).toEqual([false, true]);
    accept(make, 'this-alone');
    expect([isHeld(book, sack), isHeld(book, make)]).toEqual([false, false]);
    const again = { hold: id, lot: make, covers: 'this-alone' } as const;
    expect(book.refusal('food-at-place-accepted', again, { at: night('12:40'), person: lead, words: { why: 'x' } })).toMatchObject({
      field: 'payload.lot',
    });
  });

  it('is not begun later than it was put on hold, nor over before, and says why', () => {
    const book = withSack();
    const at = { at: night('03:00'), ...because };
    const place = places.porch;
    expect(book.refusal('place-put-on-hold', { place, from: row('03:01'), until: null }, at).field).toBe('payload.from');
    expect(book.refusal('place-put-on-hold', { place, from: row('02:00'), until: row('01:59') }, at).field).toBe('payload.until');
    const silent = { at: night('03:00'), person: lead };
    expect(book.refusal('place-put-on-hold', { place, from: row('02:00'), until: null }, silent).field).toBe('words.because');
  });

  it('holds the same whatever order the records come in', () => {
    const steps: readonly ((book: Book) => unknown)[] = [
      (b) => moved(b, places.porch, '02:00'),
      (b) => moved(b, places.prover, '04:10', { some: true }),
      (b) => moved(b, places.prover, '06:00'),
      (b) => opened(b, places.porch, '03:20'),
      (b) => b.record('lot-emptied', { station: places.porch, lot: sack, left: null }, { at: night('05:00') }),
      (b) => b.record('lot-counted', { lot: sack, place: places.porch, quantity: g('0') }, { at: night('05:30') }),
      (b) => hold(b, { from: row('03:30'), until: row('04:30') }, '12:00'),
      (b) => hold(b, { from: row('05:45') }, '12:05'),
    ];
    const some = fc.subarray(steps.map((_, i) => i));
    const property = fc.property(
      some.chain((of) => fc.tuple(fc.constant(of), fc.shuffledSubarray(of, { minLength: of.length }))),
      ([a, b]) => {
        const said = [a, b].map((order) => {
          const book = withSack();
          const makes = [dough(book, '02:30'), dough(book, '03:40'), dough(book, '07:00')];
          for (const i of order) steps[i]?.(book);
          return [sack, ...makes].map((lot) => against(book, lot).map(({ what, since, certain }) => ({ what, since, certain })));
        });
        expect(said[0]).toEqual(said[1]);
      },
    );
    fc.assert(property, { numRuns: 200 });
  });
});
