import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { g, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { accept, against, cream, iso, kitchen, told } from '../../../../test/fixtures/past-life-house.js';

const site = uuid(3);
const why = { reason: 'typed wrong' };

describe('past the life of what was made here, where the plan holds it', () => {
  it('is nothing against a make that is on a device for its life alone, without its lot and what went into it', () => {
    const { book, begun, used } = kitchen();
    const [filling, next] = [begun(night('01:00')), begun(night('02:00'))];
    used(cream, filling, night('01:05'));
    used(filling, next, night('02:05'));
    const whole = book.snapshot();
    const part = {
      ...whole,
      lot: whole.lot.filter((l) => l.id !== filling),
      flow: whole.flow.filter((f) => f.target !== filling),
    };
    const types = (of: typeof whole) => (concernsOf(workingSetOf(of), [next]).get(next) ?? []).map((r) => r.concern.type);
    expect([types(whole), types(part)]).toEqual([[], []]);
  });

  it('keeps up to and at the very instant of its end, and is on hold after it, without a record', () => {
    const { book, begun } = kitchen();
    const filling = begun(night('01:00'));
    expect(against(book, filling, iso('07:00'))).toEqual([]);
    expect(against(book, filling, '2026-11-25T07:00:00.001Z')).toEqual(['past-life']);
    expect(against(book, filling)).toEqual([]);
  });

  it('holds what it was used in after its end, tells it when that is recorded, and holds nothing that was made before', () => {
    const { book, begun, used } = kitchen();
    const filling = begun(night('01:00'));
    const [inTime, late, next] = [begun(night('07:00')), begun(night('07:01')), begun(night('07:10'))];
    used(filling, inTime, night('07:00'));
    used(filling, late, night('07:01'));
    used(late, next, night('07:10'));
    expect([inTime, late, next].map((make) => against(book, make))).toEqual([[], ['used-past-life'], ['used-past-life']]);
    expect(told(book).filter(([, type]) => type === 'past-life-used')).toEqual([[late, 'past-life-used', false]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('counts from when its end is recorded, however late, and by the time that is corrected', () => {
    const { book, begun, ended, used } = kitchen();
    const filling = begun(night('01:00'));
    const make = begun(night('08:00'));
    used(filling, make, night('08:00'));
    expect(against(book, make)).toEqual(['used-past-life']);
    const end = ended(filling, night('03:00'));
    expect(against(book, make)).toEqual([]);
    book.record('make-ended', { make: filling, quantity: null, how: 'estimated' }, { at: night('01:30'), corrects: end, words: why });
    expect(against(book, make)).toEqual(['used-past-life']);
  });

  it('is elapsed hours and not those on the wall: six from half past eight in the evening when the clocks go back are over at half past one, the second time', () => {
    const { book, begun } = kitchen();
    const filling = begun('2026-10-24T20:30:00+01:00');
    // half past one on the wall, the second time: six hours later
    expect(against(book, filling, new Date('2026-10-25T01:30:00+00:00').toISOString())).toEqual([]);
    expect(against(book, filling, new Date('2026-10-25T01:31:00+00:00').toISOString())).toEqual(['past-life']);
  });

  it('is only warned of by a plan that says so, or that was in force when it was used, or where there is none', () => {
    for (const rules of [
      { madeHere: 'warn', opened: 'hold' },
      { madeHere: 'hold', since: '2026-11-25T12:00:00.000Z' },
    ] as const) {
      const { book, begun, used } = kitchen(rules);
      const filling = begun(night('01:00'));
      const make = begun(night('08:00'));
      used(filling, make, night('08:00'));
      expect([against(book, make), against(book, filling, iso('09:00'))]).toEqual([[], []]);
      expect(told(book).filter(([subject]) => subject === make)).toEqual([[make, 'past-life-used', false]]);
    }
  });

  it('goes with what nobody could name, and with the content of a vessel that it went into in time', () => {
    const { book, begun, used } = kitchen();
    const filling = begun(night('01:00'));
    const [early, late] = [begun(night('06:00')), begun(night('08:00'))];
    used(null, early, night('06:00'));
    used(null, late, night('08:00'));
    for (const make of [early, late]) {
      const lot = book.all('flow').find((f) => f.target === make)?.source ?? '';
      book.record('lot-identified', { lot, code: null, same: filling, delivery: null }, { at: night('09:00') });
    }
    expect([against(book, early), against(book, late)]).toEqual([[], ['used-past-life']]);
    const added = [{ material: materials.cream, lot: filling, quantity: g('500'), how: 'weighed' as const }];
    const content = book.record(
      'vessel-topped-up',
      { vessel: places.tub, material: materials.cream, kept: null, keptHow: 'estimated', added },
      { at: night('06:30') },
    ).id;
    const of = begun(night('07:30'));
    used(content, of, night('07:30'));
    expect([against(book, content), against(book, content, iso('07:30')), against(book, of)]).toEqual([
      [],
      ['past-life'],
      ['used-past-life'],
    ]);
  });

  it('is decided on by the deviation about its use, and again where its end is corrected since', () => {
    const { book, begun, ended, used } = kitchen();
    const filling = begun(night('01:00'));
    const end = ended(filling, night('01:10'));
    const make = begun(night('08:00'));
    used(filling, make, night('08:00'));
    accept(book, book.all('deviation').find((d) => d.subject === make && d.type === 'past-life-used')?.id ?? '', 'what-came-of-it');
    expect(against(book, make)).toEqual([]);
    book.record('make-ended', { make: filling, quantity: null, how: 'estimated' }, { at: night('01:05'), corrects: end, words: why });
    expect(against(book, make)).toEqual(['used-past-life']);
  });

  it.each([
    ['this-alone', ['used-past-life']],
    ['what-came-of-it', []],
  ] as const)('itself is decided on by a deviation that somebody reports about it, %s', (covers, left) => {
    const { book, begun, used } = kitchen();
    const filling = begun(night('01:00'));
    const make = begun(night('08:00'));
    used(filling, make, night('08:00'));
    const reported = (at: string) =>
      book.record(
        'deviation-reported',
        { subjectType: 'make', subject: filling, class: 'process-check', holds: false },
        { at, words: { what: 'kept too long' } },
      ).id;
    const before = book.all('deviation').length;
    reported(night('06:00'));
    const early = book.all('deviation').at(before)?.id ?? '';
    accept(book, early, covers);
    expect(against(book, filling, iso('21:00'))).toEqual(['past-life']);
    reported(night('09:00'));
    const other = book.all('deviation').find((d) => d.type === 'deviation-reported' && d.id !== early)?.id ?? '';
    accept(book, other, covers);
    expect([against(book, filling, iso('21:00')), against(book, make)]).toEqual([[], left]);
  });
});

describe('past its life once opened, where the plan holds it', () => {
  it('keeps up to the instant, from the last opening at that station, until it is emptied there', () => {
    const { book, opened, usedUp } = kitchen();
    opened(night('01:00'));
    expect([against(book, cream, iso('13:00')), against(book, cream, iso('13:01'))]).toEqual([[], ['past-life']]);
    opened(night('12:00'));
    expect(against(book, cream, iso('13:01'))).toEqual([]);
    expect(against(book, cream, '2026-11-26T00:01:00.000Z')).toEqual(['past-life']);
    usedUp(night('23:00'));
    expect(against(book, cream, '2026-11-26T00:01:00.000Z')).toEqual([]);
  });

  it('goes on when the pack is put away with some left in it', () => {
    const { book, opened } = kitchen();
    opened(night('01:00'));
    const away = (grams: string | null) =>
      book.record('lot-emptied', { station: places.mixer, lot: cream, left: grams === null ? null : g(grams) }, { at: night('05:00') });
    away('1200');
    expect([against(book, cream, iso('13:00')), against(book, cream, iso('13:01'))]).toEqual([[], ['past-life']]);
    away('0');
    expect(against(book, cream, iso('13:01'))).toEqual([]);
  });

  it('is of the station where it was used, and possibly of any where it stands open at another', () => {
    const { book, usedAt, opened } = kitchen();
    opened(night('01:00'));
    opened(night('12:00'), places.prover);
    const use = (station: string | null): string => usedAt(night('14:00'), station);
    const [old, fresh, nowhere] = [use(places.mixer), use(places.prover), use(null)];
    const certain = (lot: string) =>
      concernsOf(workingSetOf(book.snapshot()), [lot])
        .get(lot)
        ?.flatMap((r) => (r.concern.type === 'used-past-life' ? r.certain : [])) ?? [];
    expect([certain(old), certain(fresh), certain(nowhere)]).toEqual([[true], [], [false]]);
  });

  it('is decided on by the opening that it was: a decision says nothing of the next one, nor of another that stood open elsewhere', () => {
    const { book, usedAt, opened } = kitchen();
    const use = (at: string, station = places.mixer): string => usedAt(at, station);
    const report = () =>
      book.record(
        'deviation-reported',
        { subjectType: 'lot', subject: cream, class: 'oprp', holds: false },
        { at: night('14:10'), words: { what: 'it stood open' } },
      ).id;
    opened(night('01:00'));
    const first = use(night('14:00'));
    accept(book, report(), 'what-came-of-it', null, '14:20');
    expect([against(book, first), against(book, cream, iso('14:30'))]).toEqual([[], []]);
    opened(night('12:00'), places.prover);
    expect(against(book, cream, '2026-11-26T00:01:00.000Z')).toEqual(['past-life']); // that at the prover
    opened(night('20:00'));
    const [next, elsewhere] = [use('2026-11-26T08:01:00.000Z'), use('2026-11-26T00:01:00.000Z', places.prover)];
    expect([first, next, elsewhere].map((m) => against(book, m))).toEqual([[], ['used-past-life'], ['used-past-life']]);
    const used2 = book.all('deviation').find((d) => d.type === 'past-life-used' && d.subject === next)?.id ?? '';
    accept(book, used2, 'what-came-of-it', null, '23:00');
    expect([first, next].map((m) => against(book, m))).toEqual([[], []]);
  });

  it('holds what was made of it once an opening is told late, and lets it go once its time is corrected', () => {
    const { book, begun, opened, used } = kitchen();
    const make = begun(night('14:00'), { station: places.mixer });
    used(cream, make, night('14:00'));
    expect(against(book, make)).toEqual([]);
    const id = opened(night('01:00'));
    expect(against(book, make)).toEqual(['used-past-life']);
    const payload = { station: places.mixer, material: materials.cream, lot: cream, beside: false };
    book.record('lot-opened', payload, { at: night('02:00'), corrects: id, words: why });
    expect(against(book, make)).toEqual([]);
  });
});

it('gives the same answer in whatever order the same things are recorded', () => {
  const [filling, one, two] = [uuid(0xe51), uuid(0xe52), uuid(0xe53)];
  const minutes = fc.integer({ min: 121, max: 900 });
  const time = (m: number): string => `2026-11-25T${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}:00Z`;
  const steps = 5;
  fc.assert(
    fc.property(
      fc.tuple(minutes, minutes, minutes, minutes, minutes),
      fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: steps, maxLength: steps }),
      ([a, b, c, d, e], order) => {
        const told = (inOrder: readonly number[]): unknown => {
          const k = kitchen();
          for (const id of [filling, one, two]) k.begun(time(60), { id, station: places.mixer });
          const facts = [
            () => k.used(filling, one, time(a)),
            () => k.ended(filling, time(b)),
            () => k.opened(time(c)),
            () => k.used(cream, two, time(d)),
            () => k.usedUp(time(e)),
          ];
          for (const i of inOrder) facts[i]?.();
          const now = iso('20:00');
          return [filling, cream, one, two].map((lot) => [against(k.book, lot), against(k.book, lot, now)]);
        };
        expect(told(order)).toEqual(told([0, 1, 2, 3, 4]));
      },
    ),
    { numRuns: 60 },
  );
});

it('is by the plan of the site where it was made', () => {
  const { book, begun } = kitchen({ madeHere: 'warn' });
  book.given('planLife', uuid(0xfff), {
    rule: 'life',
    plan: uuid(0xffe),
    number: 1,
    site,
    opened: 'warn',
    madeHere: 'hold',
    since: '2026-06-01T00:00:00.000Z',
  });
  expect(against(book, begun(night('01:00')), iso('08:00'))).toEqual(['past-life']);
});
