import { describe, expect, it } from '@jest/globals';
import { bakehouse, baker, lead, materials, night, places, plan, whiteFormula, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const payload = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: 20_725_000 };

describe('a make', () => {
  it('takes formula, plan and scale, and is a lot of what the formula makes', () => {
    const book = bakehouse();
    const { id } = book.record('make-begun', payload, { at: night('02:00') });
    expect(book.get('make', id)).toMatchObject({
      formula: whiteFormula,
      formulaName: 'white dough',
      plan,
      scalePpm: 500_000,
      doneBy: baker,
    });
    expect(book.get('lot', id)).toMatchObject({ material: materials.whiteDough, type: 'made', codeState: 'own', mg: null });
    book.record(
      'make-begun',
      { ...payload, plannedMg: null },
      { at: night('02:00'), corrects: id, doneBy: lead, words: { reason: 'nobody planned it' } },
    );
    expect(book.get('make', id)).toMatchObject({ scalePpm: null, doneBy: lead });
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each([
    ['unknown-formula', { formulaVersion: uuid(0xfff) }],
    ['unknown-point', { plan: uuid(0xfff) }],
    ['unknown-place', { station: uuid(0xfff) }],
    ['malformed', { plannedMg: 0 }],
  ])('is refused as %s', (problem, of) => {
    expect(bakehouse().refusal('make-begun', { ...payload, ...of }, { at: night('02:00') }).problem).toBe(problem);
  });
});
