import { holdingDeviations as holding, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse, delivered, g, lead, materials, night, plan, points, tartVersion } from '../fixtures/bakehouse.js';
import { uuid } from '../fixtures/driver.js';

/** The porch, as the trade notes tell it: warm cream, egg without a code that is used before it has one, and the note that names it. */
describe('the porch', () => {
  const book = bakehouse();
  const [cream, egg] = [uuid(0xe20), uuid(0xe21)];
  const unnamed = { code: null, codeState: 'not-known-yet' } as const;
  book.record(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: 'porch.jpg',
      unattended: true,
      lines: [
        delivered(cream, materials.cream, {
          ...unnamed,
          quantity: { figure: '4', unit: 'kg' },
          temperature: { figure: '9.4', unit: 'degC', measured: 'between-packs', point: points.chilled },
        }),
        delivered(egg, materials.egg, { ...unnamed, quantity: { figure: '3', unit: 'kg' }, asWritten: '3 × 1 kg' }),
      ],
    },
    { at: night('06:10') },
  );
  const make = book.record(
    'make-begun',
    { formulaVersion: tartVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('06:00') },
  ).id;
  book.record(
    'weighed-in',
    { make, lines: [{ material: materials.egg, lot: egg, quantity: g('540'), how: 'weighed', type: 'ingredient' }] },
    { at: night('06:05') },
  );

  it('finds 9.4 °C between packs outside 8 and holds the cream, not the egg', () => {
    expect(book.all('reading').map((r) => [r.subject, r.milli, r.measured, r.verdict])).toEqual([
      [cream, 9400, 'between-packs', 'outside'],
    ]);
    const state = workingSetOf(book.snapshot());
    expect([holding(state, cream).length, holding(state, egg).length]).toEqual([1, 0]);
  });

  it('records cream that is used although it is held, and opens a deviation on what it went into', () => {
    const other = book.record(
      'make-begun',
      { formulaVersion: tartVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('06:20') },
    ).id;
    book.record(
      'weighed-in',
      { make: other, lines: [{ material: materials.cream, lot: cream, quantity: g('300'), how: 'weighed', type: 'ingredient' }] },
      { at: night('06:25') },
    );
    expect(
      book
        .all('deviation')
        .filter((d) => d.subject === other)
        .map((d) => [d.type, d.summary, d.holds]),
    ).toEqual([['held-lot-used', 'cream', false]]);

    const refused = book.record('receipt-decided', { lot: cream, decision: 'refused' }, { at: night('07:40'), person: lead });
    expect(refused.outcome).toMatchObject({ usedIn: [{ subjectType: 'make', subject: other }] });
    expect(
      book
        .all('deviation')
        .filter((d) => d.subject === other)
        .map((d) => d.type),
    ).toEqual(['held-lot-used', 'refused-lot-used']);
  });

  it('turns the egg from unknown to E7731, shows both, and finds the tarts by it', () => {
    expect(book.get('lot', egg)).toMatchObject({ code: null, codeState: 'not-known-yet', type: 'placeholder' });
    book.record('lot-identified', { lot: egg, code: 'E7731', same: null, delivery: null }, { at: night('09:15') });
    expect(book.get('lot', egg)).toMatchObject({ code: null, codeState: 'not-known-yet' });
    const named = workingSetOf(book.snapshot())
      .find('lotIdentified', 'codeKey', 'e7731')
      .map((i) => i.lot);
    expect(
      book
        .all('flow')
        .filter((f) => named.includes(f.source))
        .map((f) => [f.target, f.mg]),
    ).toEqual([[make, 540_000]]);
  });

  it('comes out the same from the stored bytes alone', () => {
    expect(book.rebuilt()).toEqual(book.snapshot());
  });
});
