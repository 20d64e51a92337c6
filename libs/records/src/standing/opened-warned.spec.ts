import { describe, expect, it } from '@jest/globals';
import { g, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { cream, iso, kitchen, told } from '../../../../test/fixtures/past-life-house.js';

/** Cream that keeps twelve hours once opened, where the plan only warns of that. */
const warned = () => kitchen({ opened: 'warn', madeHere: 'warn' });

describe('what is past its life once opened, where the plan only warns of it', () => {
  it('opens a deviation by the station where it is used: what was opened elsewhere says nothing of it', () => {
    const { book, usedAt, opened } = warned();
    opened(night('01:00'));
    opened(night('12:00'), places.prover);
    const [old] = [places.mixer, places.prover, null].map((station) => usedAt(night('14:00'), station));
    expect(told(book)).toEqual([[old, 'past-life-used', false]]);
  });

  it('opens one where a vessel is topped up with it', () => {
    const { book, opened } = warned();
    opened(night('01:00'));
    const topUp = (at: string) =>
      book
        .record(
          'vessel-topped-up',
          {
            vessel: places.tub,
            material: materials.cream,
            kept: null,
            keptHow: 'estimated',
            added: [{ material: materials.cream, lot: cream, quantity: g('100'), how: 'weighed' }],
          },
          { at },
        )
        .outcome.added.map((a) => a.trouble);
    expect([topUp(night('13:00')), topUp(night('13:01'))]).toEqual([[null], ['past-life-used']]);
    expect(told(book).map(([, type]) => type)).toEqual(['past-life-used']);
  });

  it('opens one where what was used turns out to be it', () => {
    const { book, begun, opened, used } = warned();
    opened(night('01:00'));
    const [inTime, late] = [begun(night('12:00')), begun(night('14:00'))];
    for (const [make, at] of [
      [inTime, night('12:00')],
      [late, night('14:00')],
    ] as const)
      used(null, make, at);
    expect(told(book)).toEqual([]);
    const unnamed = book.all('flow').filter((f) => [inTime, late].includes(f.target));
    for (const { source } of unnamed)
      book.record('lot-identified', { lot: source, code: null, same: cream, delivery: null }, { at: iso('20:00') });
    expect(unnamed.length).toBe(2);
    expect(told(book)).toEqual([[late, 'past-life-used', false]]);
  });
});
