import { describe, expect, it } from '@jest/globals';
import { fromHex } from '@bakehouse/ledger';
import { humanCode } from './human-code.js';

describe('the short code of a seal', () => {
  // The root of eight leaves in the published test vectors of RFC 6962 trees begins 5dc9da79a7; its 40 bits in groups of five, by hand:
  // 01011 10111 00100 11101 10100 11110 01101 00111 = 11 23 4 29 20 30 13 7 = B Q 4 X M Y D 7
  it('is the first 40 bits of the root', () => {
    expect(humanCode(fromHex('5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328'))).toBe('BQ4X-MYD7');
  });

  it('has no letter that is mistaken for another', () => {
    const all = Array.from({ length: 256 }, (_, byte) => humanCode(new Uint8Array(32).fill(byte))).join('');
    expect(all).not.toMatch(/[ILOU]/);
    expect(humanCode(new Uint8Array(32))).toBe('0000-0000');
    expect(humanCode(new Uint8Array(32).fill(255))).toBe('ZZZZ-ZZZZ');
  });
});
