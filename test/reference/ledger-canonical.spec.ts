import { createHash } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import { canonicalBytes, commitment, isCanonical, sha256, toHex, utf8 } from '@bakehouse/ledger';
import { doubles } from '../support/double-vectors.js';

const text = (value: unknown) => new TextDecoder().decode(canonicalBytes(value));
const fromBits = (hex: string) => Buffer.from(hex, 'hex').readDoubleBE(0);

describe('RFC 8785, JSON Canonicalization Scheme', () => {
  it('§3.2.2 to 3.2.4: the sample object, in the bytes that §3.2.4 prints', () => {
    const sample: unknown = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(text(sample)).toBe(
      `{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],` + String.raw`"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
    expect(toHex(canonicalBytes(sample))).toBe(
      '7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c' +
        '31652d32375d2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d',
    );
  });

  it('§3.2.3: names in the order of their UTF-16 units, so the emoji stands before U+FB33', () => {
    const sample: unknown = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`);
    const order = [...text(sample).matchAll(/":"([^"]+)"/g)].map((found) => found[1]);
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it.each(doubles)('Appendix B: the double %s is written %s', (bits, written) => {
    expect(text(fromBits(bits))).toBe(written);
  });

  it.each([
    ['7fffffffffffffff', 'NaN'],
    ['7ff0000000000000', 'Infinity'],
    ['fff0000000000000', '-Infinity'],
  ])('Appendix B: the double %s, %s, is an error', (bits) => {
    expect(() => canonicalBytes({ value: fromBits(bits) })).toThrow('not allowed');
  });

  it.each([
    ['half a surrogate pair in a text (§3.2.2.2)', { a: '\ud83d' }],
    ['half a surrogate pair in a name', { '\udead': 1 }],
    ['undefined as a member', { a: undefined }],
    ['undefined in an array', [undefined]],
    ['undefined itself', undefined],
    ['a hole in an array', Array(2)],
    ['a function', { a: () => 1 }],
    ['a bigint', { a: 1n }],
    ['a date', { a: new Date(0) }],
    ['a map', new Map()],
    ['an object that chooses its own form', { a: 1, toJSON: () => ({ a: 2 }) }],
    ['a value nested beyond 100', Array.from({ length: 101 }).reduce<unknown>((inner) => [inner], 1)],
  ])('refuses %s rather than hash something else', (_what, value) => {
    expect(() => canonicalBytes(value)).toThrow();
  });

  it('keeps a member called __proto__, which careless copying loses', () => {
    expect(text(JSON.parse('{"b":1,"__proto__":{"a":2}}'))).toBe('{"__proto__":{"a":2},"b":1}');
  });

  it('knows canonical bytes from other spellings of the same value', () => {
    expect(isCanonical(utf8('{"a":1,"b":[]}'))).toBe(true);
    for (const other of ['{"b":[],"a":1}', '{"a": 1}', '{"a":1.0}', '{"a":1,"a":1}', '\ufeff{"a":1}', '{', ''])
      expect([other, isCanonical(utf8(other))]).toEqual([other, false]);
    expect(isCanonical(Uint8Array.of(0x22, 0xff, 0x22))).toBe(false);
  });
});

describe('SHA-256 and commitments', () => {
  it('gives the digests of FIPS 180-4’s examples, in any number of parts', () => {
    expect(toHex(sha256(utf8('abc')))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(toHex(sha256(utf8('a'), utf8('b'), utf8('c')))).toBe(toHex(sha256(utf8('abc'))));
    expect(toHex(sha256())).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  });

  it('a commitment is what node:crypto gives for the salt’s bytes and then the text', () => {
    const salt = '00112233445566778899aabbccddeeff';
    const other = createHash('sha256').update(Buffer.from(salt, 'hex')).update('Crème pâtissière', 'utf8').digest('hex');
    expect(commitment(salt, 'Crème pâtissière')).toBe(other);
    for (const short of ['', '00', salt.toUpperCase(), `${salt}00`]) expect(() => commitment(short, 'x')).toThrow('16 bytes');
    expect(() => commitment(salt, '\ud83d')).toThrow('surrogate');
  });
});
