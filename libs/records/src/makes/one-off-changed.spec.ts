import { describe, expect, it } from '@jest/globals';
import { bakehouse, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

function changed() {
  const book = bakehouse();
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  return { book, make };
}

describe('a one-off change', () => {
  it('says which allergens come in with what is used instead', () => {
    const { book, make } = changed();
    const { id, outcome } = book.record(
      'one-off-changed',
      { make, material: materials.oil, instead: materials.butter },
      { at: night('02:10'), words: { change: 'no oil left' } },
    );
    expect(outcome).toEqual({ newAllergens: { contains: ['milk'], mayContain: [] } });
    expect(book.get('oneOff', id)).toMatchObject({ make, change: 'no oil left', material: materials.oil, instead: materials.butter });
  });

  it('needs words where no material says what was changed', () => {
    const { book, make } = changed();
    expect(book.refusal('one-off-changed', { make, material: null, instead: null }, { at: night('02:10') })).toMatchObject({
      field: 'words.change',
    });
    expect(
      book.record('one-off-changed', { make, material: null, instead: null }, { at: night('02:10'), words: { change: '32 kg, not 40' } })
        .outcome,
    ).toEqual({ newAllergens: { contains: [], mayContain: [] } });
  });

  it.each([
    ['unknown-make', { make: uuid(0xfff) }],
    ['unknown-material', { material: uuid(0xfff) }],
    ['unknown-material', { instead: uuid(0xfff) }],
  ])('is refused as %s', (problem, of) => {
    const { book, make } = changed();
    expect(
      book.refusal('one-off-changed', { make, material: null, instead: null, ...of }, { at: night('02:10'), words: { change: 'x' } })
        .problem,
    ).toBe(problem);
  });
});
