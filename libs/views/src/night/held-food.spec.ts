import { describe, expect, it } from '@jest/globals';
import { bakehouse, delivered, materials, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { nightView } from './night-view.js';

describe('food on hold', () => {
  const at = new Date(night('06:00')).toISOString();

  it('is told of the night: a lot with a hold of its own until that is lifted, and no other', () => {
    const book = bakehouse();
    const [held, other] = [delivered(uuid(0xe71), materials.flour), delivered(uuid(0xe72), materials.flour)];
    const note = { supplier: null, noteNumber: null, photo: null, unattended: false };
    book.record('delivery-received', { ...note, lines: [held, other] }, { at: night('01:00') });
    const told = () =>
      nightView(book.snapshot(), { bakeDay: '2026-11-25', at, zone: 'Europe/London' }).heldFood.map((h) => [
        h.id,
        h.concerns.map((c) => c.type),
      ]);
    expect(told()).toEqual([]);
    book.record('hold-placed', { lot: held.lot, deviation: null }, { at: night('02:00'), words: { because: 'mites' } });
    expect(told()).toEqual([[held.lot, ['held']]]);
  });
});
