import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import * as z from 'zod';
import { randomToken, tokenHash, uuidv7, uuidv7From } from './ids.js';

describe('version 7 ids', () => {
  it('agrees with the example of RFC 9562, appendix A.6', () => {
    // 22 February 2022 14:22:22.00 GMT-05:00; rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(uuidv7From(new Date('2022-02-22T14:22:22-05:00'), random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  it('is a version 7 UUID whatever the random bytes, and is ordered by its instant', () => {
    const at = fc.integer({ min: 0, max: 2 ** 48 - 2 });
    const bytes = fc.uint8Array({ minLength: 10, maxLength: 10 });
    fc.assert(
      fc.property(at, bytes, bytes, (ms, a, b) => {
        const [first, second] = [uuidv7From(new Date(ms), a), uuidv7From(new Date(ms + 1), b)];
        expect(z.uuidv7().safeParse(first).success).toBe(true);
        expect(first < second).toBe(true);
      }),
    );
  });

  it('differs at the same instant', () => {
    const at = new Date('2026-11-25T00:00:00Z');
    expect(uuidv7(at)).not.toBe(uuidv7(at));
  });
});

describe('tokens', () => {
  it('are 256 bits in letters that a URL may hold', () => {
    expect(randomToken()).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(randomToken()).not.toBe(randomToken());
  });

  it('are stored as their SHA-256', () => {
    // FIPS 180-4 example of one block: SHA-256("abc")
    expect(tokenHash('abc').toString('hex')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});
