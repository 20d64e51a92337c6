import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { bakehouse, delivered, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { lotCodeKey } from './alike.js';

const [here, far] = [uuid(0xe21), uuid(0xe22)];
const plain = fc.string({ minLength: 1, maxLength: 10, unit: fc.constantFrom(...'AB019xy/.') });
const between = fc.array(fc.constantFrom('', ' ', '-', '–', '\u00a0'), { minLength: 10, maxLength: 10 });
const spelt = fc.tuple(between, fc.array(fc.boolean(), { minLength: 10, maxLength: 10 }));
const written = (code: string, [noise, capitals]: readonly [readonly string[], readonly boolean[]]): string =>
  [...code]
    .map((letter, i) => `${capitals[i] ? letter.toUpperCase() : letter.toLowerCase()}${i < code.length - 1 ? noise[i] : ''}`)
    .join('');

/** What the opening of a lot says of one on hold, by the door and by a tablet, which the driver holds against each other. */
function saidOfOne(own: string | null, other: string, later: 'on the pack' | 'later'): readonly string[] {
  const book = bakehouse();
  const came = (lot: string, code: string | null) => ({
    supplier: null,
    noteNumber: null,
    photo: null,
    unattended: false,
    lines: [delivered(lot, materials.flour, { code, codeState: code === null ? 'not-known-yet' : 'on-it' })],
  });
  book.record('delivery-received', came(far, other), { at: night('01:00') });
  book.record('delivery-received', came(here, later === 'later' ? null : own), { at: night('01:01') });
  if (later === 'later') book.record('lot-identified', { lot: here, code: own, same: null, delivery: null }, { at: night('01:10') });
  const [held, opened] = [far, here];
  book.record('hold-placed', { lot: held, deviation: null }, { at: night('02:00'), words: { because: 'moth' } });
  const payload = { station: places.mixer, material: materials.flour, lot: opened, beside: false };
  return book.record('lot-opened', payload, { at: night('03:00') }).outcome.alikeHeld ?? [];
}

describe('a lot that is alike one on hold', () => {
  it('is found by its code at the door as on a tablet, however spaces, dashes and capitals are put into both, on the pack or named later', () => {
    fc.assert(
      fc.property(plain, spelt, spelt, fc.constantFrom('on the pack', 'later'), (code, one, other, when) => {
        expect(saidOfOne(written(code, one), written(code, other), when)).toEqual([far]);
      }),
      { numRuns: 40 },
    );
  });

  it('is not one with another code, where a zero in front is part of the code', () => {
    fc.assert(
      fc.property(plain, plain, (one, other) => {
        fc.pre(lotCodeKey(one) !== lotCodeKey(other));
        expect(saidOfOne(one, other, 'on the pack')).toEqual([]);
      }),
      { numRuns: 20 },
    );
    expect(saidOfOne('0471', '471', 'on the pack')).toEqual([]);
  });
});
