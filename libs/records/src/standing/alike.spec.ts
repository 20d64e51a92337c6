import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { isAlike, lotCodeKey } from './alike.js';

const [flour, rye] = ['flour', 'rye'];
const lot = (id: string, code: string | null, material = flour) => ({ id, code, material });

describe('lots with the same code', () => {
  it.each([
    ['as it is', '4471', '4471'],
    ['in other letters', 'ab-4471', 'AB-4471'],
    ['without the dash', 'L 44-71', 'l4471'],
    ['with another dash', 'L44–71', 'L44-71'],
  ])('are alike %s', (_how, one, other) => {
    expect(isAlike(lot('a', one), lot('b', other))).toBe(true);
  });

  it.each([
    ['another code', lot('b', '4472')],
    ['another material', lot('b', '4471', rye)],
    ['no code', lot('b', null)],
    ['themselves', lot('a', '4471')],
  ])('are not alike with %s', (_what, other) => {
    expect(isAlike(lot('a', '4471'), other)).toBe(false);
  });

  it('are never alike by dashes alone', () => {
    expect(isAlike(lot('a', '--'), lot('b', ' - '))).toBe(false);
  });

  it('are alike both ways round, however spaces, dashes and capitals are put into the code', () => {
    const code = fc.string({ minLength: 1, maxLength: 12, unit: fc.constantFrom(...'AB12xy/.') });
    const noise = fc.array(fc.constantFrom('', ' ', '-', '–', '\u00a0'), { minLength: 13, maxLength: 13 });
    fc.assert(
      fc.property(code, noise, fc.boolean(), (plain, between, capitals) => {
        const spread = [...plain].map((letter, i) => `${letter}${between[i] ?? ''}`).join('');
        const written = capitals ? spread.toUpperCase() : spread.toLowerCase();
        expect(lotCodeKey(lotCodeKey(written))).toBe(lotCodeKey(plain));
        expect(isAlike(lot('a', plain), lot('b', written))).toBe(true);
        expect(isAlike(lot('b', written), lot('a', plain))).toBe(true);
      }),
    );
  });
});
