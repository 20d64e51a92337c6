import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, delivered, g, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

function withRun() {
  const book = bakehouse();
  const [oil, run] = [uuid(0xe01), uuid(0xe10)];
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(oil, materials.tinOil)] },
    { at: night('01:00') },
  );
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  book.record(
    'divided',
    {
      make,
      quantity: null,
      runs: [{ run, product: materials.tin, heads: null, pieces: 20, scaling: g('910') }],
      oldDough: null,
      scrap: null,
    },
    { at: night('03:00') },
  );
  const line = { material: materials.tinOil, lot: oil, quantity: null, how: 'estimated' as const };
  const add: PayloadFor<'added-on'> = {
    targetType: 'run',
    target: run,
    afterOven: false,
    lines: [line],
  };
  return { book, oil, run, add, line };
}

describe('what goes on a product', () => {
  it.each([
    [false, 'aid'],
    [true, 'after-oven'],
  ] as const)('is traced though nobody weighs it; after the oven %s is %s', (afterOven, type) => {
    const { book, oil, run, add } = withRun();
    book.record('added-on', { ...add, afterOven }, { at: night('03:10') });
    expect(
      book
        .all('flow')
        .filter((f) => f.target === run && f.source === oil)
        .map((f) => [f.mg, f.type, f.how]),
    ).toEqual([[null, type, 'estimated']]);
  });

  it('opens a deviation on the run where the lot is held', () => {
    const { book, oil, run, add } = withRun();
    book.record('hold-placed', { lot: oil, deviation: null }, { at: night('03:05') });
    book.record('added-on', add, { at: night('03:10') });
    expect(book.all('deviation').map((d) => [d.subjectType, d.subject, d.type])).toEqual([['run', run, 'held-lot-used']]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is refused for what is not there', () => {
    const { book, add, line } = withRun();
    expect(book.refusal('added-on', { ...add, targetType: 'batch' }, { at: night('03:10') })).toMatchObject({
      problem: 'unknown-subject',
      field: 'payload.target',
    });
    expect(book.refusal('added-on', { ...add, lines: [{ ...line, lot: uuid(0xfff) }] }, { at: night('03:10') })).toMatchObject({
      problem: 'unknown-lot',
    });
  });
});
