import { beforeAll, describe, expect, it } from '@jest/globals';
import { bracketed, checkDigitOf, fnc1, gs1ElementString, gs1Parse } from '@bakehouse/standards';
import bwip from 'bwip-js/node';
import fc from 'fast-check';
import { readBarcodes } from 'zxing-wasm/reader';
import { readFromDisk } from '../support/scan.js';

// Two programs that share nothing with ours: bwip-js checks GS1 data before it draws a symbol, zxing reads the drawn symbol.

interface Pair {
  readonly ai: string;
  readonly value: string;
}

function bwipAccepts(elements: readonly Pair[]): true | string {
  try {
    bwip.raw({ bcid: 'gs1datamatrix', text: elements.map(({ ai, value }) => `(${ai})${value}`).join('') });
    return true;
  } catch (error) {
    return String(error);
  }
}

const weAccept = (elements: readonly Pair[]): boolean => {
  const answer = gs1Parse.calculate({ elements });
  return answer.ok && answer.value.valid;
};

const digits = (length: number) => fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: length, maxLength: length });
/** A key whose check digit is wrong one time in five. */
const keyOf = (length: number) =>
  fc
    .tuple(digits(length - 1), fc.integer({ min: 0, max: 4 }))
    .map(([body, wrong]) => `${body}${(checkDigitOf(body) + (wrong === 4 ? 1 : 0)) % 10}`);
/** Brackets are left out: bwip-js cuts at each of them. */
const words = fc.string({ unit: fc.constantFrom(...`ABCz019!"%&'*+,-./:;<=>?_#`), minLength: 1, maxLength: 22 });
const date = fc
  .tuple(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 0, max: 13 }), fc.integer({ min: 0, max: 32 }))
  .map((parts) => parts.map((n) => String(n).padStart(2, '0')).join('')); // not year 00: whether it has a 29 February needs a century
const number = (most: number) => fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: most });
const valueFor: Record<string, fc.Arbitrary<string>> = {
  '00': keyOf(18),
  '01': keyOf(14),
  '02': keyOf(14),
  10: words,
  11: date,
  13: date,
  15: date,
  16: date,
  17: date,
  20: digits(2),
  21: words,
  30: number(9),
  37: number(9),
  240: words,
  3102: digits(6),
  3103: digits(6),
  3202: digits(6),
  3302: digits(6),
  3922: number(16),
  400: words,
  410: keyOf(13),
  414: keyOf(13),
  7003: date.map((day) => `${day}2359`),
  7006: date,
  4326: date,
  4330: fc.constantFrom('001850', '001850-', '00185'),
  8005: digits(6),
  8008: date.map((day) => `${day}04`),
  91: words,
  12: date,
  235: words,
  22: words,
};
const pair = fc.constantFrom(...Object.keys(valueFor)).chain((ai) => (valueFor[ai] ?? words).map((value): Pair => ({ ai, value })));

describe('held against bwip-js', () => {
  it('accepts and refuses the same elements', () => {
    const seen = { both: 0, neither: 0 };
    fc.assert(
      fc.property(fc.tuple(keyOf(14), fc.array(pair, { maxLength: 3 })), ([gtin, others]) => {
        for (const elements of [[{ ai: '01', value: gtin }, ...others], others]) {
          if (elements.length === 0) continue;
          const theirs = bwipAccepts(elements);
          seen[theirs === true ? 'both' : 'neither'] += 1;
          expect([elements, weAccept(elements), theirs]).toEqual([elements, theirs === true, theirs]);
        }
      }),
      { numRuns: 1500, seed: 26 },
    );
    expect(Math.min(seen.both, seen.neither)).toBeGreaterThan(200);
  });
});

describe('printed with bwip-js and read back with zxing', () => {
  beforeAll(readFromDisk);
  const sound: Pair[][] = [
    [
      { ai: '01', value: '05412345000013' },
      { ai: '10', value: 'ABC&+123' },
      { ai: '15', value: '260300' },
    ],
    [
      { ai: '01', value: '05412345000013' },
      { ai: '3103', value: '000189' },
      { ai: '10', value: 'L4471' },
      { ai: '21', value: 'S-7/b' },
    ],
    [
      { ai: '00', value: '376104250021234569' },
      { ai: '02', value: '05412345000013' },
      { ai: '37', value: '24' },
      { ai: '10', value: 'x' },
    ],
  ];

  it.each(sound.map((elements) => [bracketed(elements), elements] as const))(
    '%s: the scanner sends the element string that we say it sends',
    async (text, elements) => {
      for (const [bcid, ai] of [
        ['gs1datamatrix', ']d2'],
        ['gs1-128', ']C1'],
        ['gs1qrcode', ']Q3'],
      ] as const) {
        const png = await bwip.toBuffer({ bcid, text, scale: 3, paddingwidth: 12, paddingheight: 12, backgroundcolor: 'FFFFFF' });
        const [read] = await readBarcodes(new Uint8Array(png), { textMode: 'Plain' });
        const built = gs1ElementString.calculate({ elements });
        expect([bcid, read?.symbologyIdentifier, read?.text.replace(new RegExp(`^${fnc1}`), '')]).toEqual([
          bcid,
          ai,
          built.ok && built.value.elementString,
        ]);
        expect(gs1Parse.calculate({ text: `${read?.symbologyIdentifier}${read?.text}` })).toMatchObject({
          ok: true,
          value: { valid: true, elements },
        });
      }
    },
  );
});
