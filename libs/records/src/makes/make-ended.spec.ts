import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, g, materials, night, tartVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

type Line = PayloadFor<'weighed-in'>['lines'][number];

describe('the end of a make', () => {
  const begun = () => {
    const book = bakehouse();
    const make = book.record(
      'make-begun',
      { formulaVersion: tartVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('04:00') },
    ).id;
    return { book, make };
  };
  const line = (quantity: Line['quantity']): Line => ({
    material: materials.syrup,
    lot: null,
    quantity,
    how: 'weighed',
    type: 'ingredient',
  });

  it('shows what was lost in cooking: 8,976 g in, 8,796 g out, 180 g', () => {
    const { book, make } = begun();
    book.record('weighed-in', { make, lines: [line(g('6000')), line(g('2976'))] }, { at: night('04:05') });
    expect(book.record('make-ended', { make, quantity: g('8796'), how: 'weighed' }, { at: night('05:00') }).outcome).toEqual({
      mg: 8_796_000,
      inMg: 8_976_000,
      lostMg: 180_000,
    });
    expect(book.all('makeEnded').map((e) => [e.make, e.mg, e.how])).toEqual([[make, 8_796_000, 'weighed']]);
  });

  it('does not guess where one line was not weighed', () => {
    const { book, make } = begun();
    book.record('weighed-in', { make, lines: [line(g('6000')), line(null)] }, { at: night('04:05') });
    expect(book.record('make-ended', { make, quantity: g('8796'), how: 'weighed' }, { at: night('05:00') }).outcome).toMatchObject({
      inMg: null,
      lostMg: null,
    });
    expect(book.refusal('make-ended', { make: uuid(0xfff), quantity: null, how: 'estimated' }, { at: night('05:00') }).problem).toBe(
      'unknown-make',
    );
    expect(
      book.refusal('make-ended', { make, quantity: { figure: '1', unit: 'min' }, how: 'estimated' }, { at: night('05:00') }),
    ).toMatchObject({ field: 'payload.quantity' });
  });
});
