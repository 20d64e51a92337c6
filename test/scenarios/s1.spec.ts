import { leftOf, movementsUntil, openBetween, proposedLines } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse, celsius, delivered, g, materials, night, places, plan, points, row, whiteVersion } from '../fixtures/bakehouse.js';
import { uuid } from '../fixtures/driver.js';

/** Two sacks, one dough, as the trade notes tell it: 16.4 kg left in the first, the rest from the second; a warm dough that is a note and no hold. */
describe('two sacks', () => {
  const [q, r] = [uuid(0xe01), uuid(0xe02)];
  const book = bakehouse();
  const delivery = (lot: string) =>
    book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
      { at: night('01:00') },
    );
  delivery(q);
  delivery(r);
  const open = (lot: string, time: string) =>
    book.record('lot-opened', { station: places.mixer, material: materials.flour, lot, beside: false }, { at: night(time) });
  open(q, '01:10');
  const begin = (plannedMg: number, time: string) =>
    book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg },
      { at: night(time) },
    );
  const early = begin(14_259_000, '01:20').id;
  book.record(
    'weighed-in',
    { make: early, lines: [{ material: materials.flour, lot: q, quantity: g('8600'), how: 'weighed', type: 'ingredient' }] },
    { at: night('01:25') },
  );

  const make = begin(41_450_000, '02:30').id;
  // The two taps.
  book.record('lot-emptied', { station: places.mixer, lot: q, left: null }, { at: night('02:35') });
  const second = open(r, '02:35').outcome;

  const left = (lot: string): number | null => {
    const of = book.get('lot', lot);
    const rows = {
      into: book.all('flow').filter((f) => f.target === lot),
      out: book.all('flow').filter((f) => f.source === lot),
      departures: [],
      returned: [],
      counter: [],
      carried: [],
      counts: book.all('counted').filter((c) => c.lot === lot),
    };
    return leftOf(of?.mg ?? null, movementsUntil(rows, row('02:36')), 'mg');
  };
  const formula = book.get('formulaVersion', whiteVersion)?.content.lines ?? [];
  const proposed = proposedLines(
    formula,
    41_450_000,
    openBetween(book.all('inUse'), book.all('emptied'), row('02:30'), row('02:36')),
    left,
  );
  const lines = proposed
    .map((l) => ({ ...l, mg: undefined, quantity: l.mg === null ? null : g(String(l.mg / 1000)), type: 'ingredient' as const }))
    .map(({ mg: _mg, ...l }) => l);
  book.record('weighed-in', { make, lines }, { at: night('02:36') });

  it('takes 16,400 g from the first sack, guessed, and 8,600 g from the second, with no lot typed', () => {
    const flour = book
      .all('flow')
      .filter((f) => f.target === make && [q, r].includes(f.source))
      .map((f) => [f.source, f.mg, f.how]);
    expect(flour).toEqual([
      [q, 16_400_000, 'estimated'],
      [r, 8_600_000, 'by-recipe'],
    ]);
    expect(second).toMatchObject({ replaces: [], newAllergens: { contains: [], mayContain: [] }, instead: false, trouble: null });
    expect(left(q)).toBe(0);
  });

  it('makes placeholders for what was not open anywhere, and the dough weighs 41,450 g', () => {
    const into = book.all('flow').filter((f) => f.target === make);
    expect(into.reduce((sum, f) => sum + (f.mg ?? 0), 0)).toBe(41_450_000);
    expect(
      book
        .all('lot')
        .filter((l) => l.type === 'placeholder')
        .map((l) => l.name),
    ).toEqual(['water', 'salt', 'fresh yeast', 'rapeseed oil']);
  });

  const mix = book.record(
    'mixed',
    { make, minutesSlow: 4, minutesFast: 9, water: celsius('19'), flour: celsius('21'), room: celsius('24'), dough: celsius('28.5') },
    { at: night('02:50') },
  ).outcome;
  const reading = book.record(
    'reading-taken',
    {
      subjectType: 'make',
      subject: make,
      point: points.dough,
      measured: 'dough',
      parameter: 'dough temperature',
      instrument: null,
      value: celsius('28.5'),
      yes: null,
      seconds: null,
    },
    { at: night('02:50') },
  ).outcome;

  it('gives a factor of 21.5 against 14 expected, and offers nine fast minutes instead of six as the cause', () => {
    expect(mix).toMatchObject({ friction: 21_500, expected: 14_000, causes: [{ what: 'fast-minutes', actual: 9, planned: 6 }] });
  });

  it('finds 28.5 °C outside 26 ± 1.5, a note that holds nothing', () => {
    expect(reading).toMatchObject({ verdict: 'outside', class: 'process-check', deviation: 'opened', holds: false });
    expect(book.all('deviation').map((d) => [d.subject, d.class, d.holds])).toEqual([[make, 'process-check', false]]);
  });

  it('comes out the same from the stored bytes alone', () => {
    expect(book.rebuilt()).toEqual(book.snapshot());
  });
});
