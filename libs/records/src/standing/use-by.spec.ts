import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse, delivered, g, lead, materials, night, places, plan, tartVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type Book } from '../../../../test/fixtures/driver.js';

const [cream, jar] = [uuid(0xe21), places.tub];
const came = (useBy: string | null, lots = [cream]) => ({
  supplier: null,
  noteNumber: null,
  photo: null,
  unattended: false,
  lines: lots.map((lot) => delivered(lot, materials.cream, { useBy })),
});
const into = (lot: string | null) => ({
  material: materials.cream,
  lot,
  quantity: g('300'),
  how: 'weighed' as const,
  type: 'ingredient' as const,
});
/** A house where cream came, and a filling that some of it, or of something, is weighed into. */
function kitchen(useBy: string | null) {
  const book = bakehouse();
  const delivery = book.record('delivery-received', came(useBy), { at: '2026-11-20T06:00:00Z' }).id;
  const filling = (at: string, lot: string | null) => {
    const payload = { formulaVersion: tartVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = book.record('make-begun', payload, { at }).id;
    return { make, weighed: book.record('weighed-in', { make, lines: [into(lot)] }, { at }).id };
  };
  const putInJar = (at: string, lot: string | null) =>
    book.record(
      'vessel-topped-up',
      {
        vessel: jar,
        material: materials.cream,
        kept: null,
        keptHow: 'estimated',
        added: [{ material: materials.cream, lot, quantity: g('500'), how: 'weighed' }],
      },
      { at },
    ).id;
  const correct = (to: string | null) =>
    book.record('delivery-received', came(to), { at: '2026-11-20T06:00:00Z', corrects: delivery, words: { reason: 'misread' } });
  return { book, filling, putInJar, correct };
}
const against = (book: Book, lot: string): string[] =>
  (concernsOf(workingSetOf(book.snapshot()), [lot]).get(lot) ?? []).map((r) => `${r.concern.type} ${r.concern.what ?? ''}`);
const past = (day: string) => [`used-past-use-by cream, use by ${day}`];
const decided = (book: Book, deviation: string, covers: 'this-alone' | 'what-came-of-it') =>
  book.record(
    'disposition-decided',
    { deviation, lot: null, disposition: 'accepted-for-use', covers, concerns: [], quantity: null },
    { at: night('06:00'), person: lead },
  );

describe('a use-by date', () => {
  it('holds what something was put into when it was past, and not what it was put into in time', () => {
    const { book, filling } = kitchen('2026-11-24');
    const [inTime, late] = [filling('2026-11-24T22:00:00Z', cream), filling(night('02:00'), cream)];
    expect(against(book, inTime.make)).toEqual([]);
    expect(against(book, late.make)).toEqual(past('24 Nov 2026'));
    expect(book.all('deviation').map((d) => [d.subject, d.type, d.holds, d.lot])).toEqual([[late.make, 'expired-lot-used', false, cream]]);
  });

  it('counts as it is corrected: an earlier date holds what was made, and tells it; a later one frees it', () => {
    const { book, filling, correct } = kitchen('2026-11-30');
    const { make } = filling(night('02:00'), cream);
    expect(against(book, make)).toEqual([]);
    correct('2026-11-23');
    expect(against(book, make)).toEqual(past('23 Nov 2026'));
    expect(book.all('deviation').map((d) => [d.subject, d.type, d.lot])).toEqual([[make, 'expired-lot-used', cream]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
    correct('2026-11-25');
    expect(against(book, make)).toEqual([]);
  });

  it('of the lot that something turned out to be holds what that was put into late, and nothing that was used in time', () => {
    const { book, filling } = kitchen('2026-11-24');
    const [early, late] = [filling('2026-11-23T02:00:00Z', null), filling(night('02:00'), null)];
    const nameless = (make: string): string => book.all('flow').find((f) => f.target === make)?.source ?? '';
    for (const { make } of [early, late])
      book.record('lot-identified', { lot: nameless(make), code: null, same: cream, delivery: null }, { at: '2026-11-26T08:00:00Z' });
    expect(against(book, early.make)).toEqual([]);
    expect(against(book, late.make)).toEqual(past('24 Nov 2026'));
    expect(book.all('deviation').map((d) => [d.subject, d.type])).toEqual([[late.make, 'expired-lot-used']]);
  });

  it('of anything in a vessel counts for its content, the earliest of them, until the vessel is cleaned out', () => {
    const { book, filling, putInJar } = kitchen('2026-11-24');
    const first = putInJar('2026-11-22T08:00:00Z', cream);
    const second = putInJar('2026-11-23T08:00:00Z', null);
    expect(against(book, filling('2026-11-24T09:00:00Z', second).make)).toEqual([]);
    expect(against(book, filling(night('02:00'), second).make)).toEqual(past('24 Nov 2026'));
    expect(against(book, second)).toEqual([]);
    expect(against(book, first)).toEqual([]);
    book.record('vessel-cleaned-out', { vessel: jar }, { at: night('03:00') });
    const third = putInJar(night('03:30'), null);
    expect(against(book, filling(night('04:00'), third).make)).toEqual([]);
  });

  it('that was past when something went into a vessel is told of that content, and comes with it from there', () => {
    const { book, filling, putInJar } = kitchen('2026-11-24');
    const content = putInJar(night('01:00'), cream);
    const next = putInJar(night('01:30'), null);
    const { make } = filling(night('02:00'), next);
    for (const lot of [content, next, make]) expect(against(book, lot)).toEqual(past('24 Nov 2026'));
    const [told] = book.all('deviation').filter((d) => d.type === 'expired-lot-used');
    expect([told?.subject, told?.lot]).toEqual([content, cream]);
    decided(book, told?.id ?? '', 'what-came-of-it');
    for (const lot of [content, next, make]) expect(against(book, lot)).toEqual([]);
  });

  it('is decided on by the deviation about the use, for that use alone', () => {
    const { book, filling } = kitchen('2026-11-24');
    const [one, other] = [filling(night('02:00'), cream), filling(night('02:30'), cream)];
    decided(book, book.all('deviation').find((d) => d.subject === one.make)?.id ?? '', 'this-alone');
    expect(against(book, one.make)).toEqual([]);
    expect(against(book, other.make)).toEqual(past('24 Nov 2026'));
  });
});
