import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { aiEntries, type AiEntry } from './ai-table.js';
import { checkDigitFits, checkDigitOf } from './check-digit.js';
import { digitalLink, readDigitalLink } from './digital-link.js';
import { bracketed, elementString, readBracketed, readElementString } from './element-string.js';
import { problemsOf, type Element } from './elements.js';
import { gs1Parse } from './parse-calculation.js';

const setOf = { N: '0123456789', X: `!"%&'()*+,-./0123456789:;<=>?ABCXYZ_abcxyz`, Y: '#-/0123456789ABCXYZ', Z: '-_=09azAZ' } as const;

/** Data of the right length and characters; check digits and dates are arbitrary, since element strings do not check them. */
function dataFor(entry: AiEntry): fc.Arbitrary<string> {
  const parts = entry.components.map(({ set, min, max }) =>
    fc.string({ unit: fc.constantFrom(...setOf[set]), minLength: min, maxLength: max }),
  );
  return fc.tuple(...parts).map((texts) => texts.join(''));
}
const anyElement = fc
  .constantFrom(...aiEntries.values())
  .chain((entry) => dataFor(entry).map((value): Element => ({ ai: entry.ai, value })));
const anyElements = fc.uniqueArray(anyElement, { selector: ({ ai }) => ai, minLength: 1, maxLength: 6 });

describe('strings', () => {
  it('elements → element string → elements, for every identifier', () => {
    fc.assert(
      fc.property(anyElements, (elements) => {
        expect(readElementString(elementString(elements))).toEqual({ elements, problems: [] });
      }),
    );
  });

  it('elements → brackets → elements, brackets in the data too', () => {
    fc.assert(
      fc.property(anyElements, (elements) => {
        expect(readBracketed(bracketed(elements))).toEqual({ elements, problems: [] });
      }),
    );
    expect(bracketed([{ ai: '10', value: 'A(21)B' }])).toBe('(10)A\\(21)B');
  });

  it('FNC1 stands only where it is needed: each one that is taken out changes what is read', () => {
    fc.assert(
      fc.property(anyElements, (elements) => {
        const text = elementString(elements);
        for (let at = text.indexOf('\u001d'); at >= 0; at = text.indexOf('\u001d', at + 1)) {
          expect(readElementString(text.slice(0, at) + text.slice(at + 1)).elements).not.toEqual(elements);
        }
      }),
    );
  });
});

describe('Digital Links', () => {
  const gtin = fc.string({ unit: fc.constantFrom(...setOf.N), minLength: 13, maxLength: 13 }).map((body) => `${body}${checkDigitOf(body)}`);
  const attributes = [...aiEntries.values()].filter(
    ({ ai, linkAttribute, linkQualifiers }) => linkAttribute && linkQualifiers === undefined && ai !== '10',
  );
  const some = fc.uniqueArray(
    fc.constantFrom(...attributes).chain((entry) => dataFor(entry).map((value): Element => ({ ai: entry.ai, value }))),
    { selector: ({ ai }) => ai, maxLength: 5 },
  );
  const words = fc.string({ unit: fc.constantFrom(...setOf.X), minLength: 1, maxLength: 20 });
  const qualifiers = fc
    .subarray(['22', '10', '21'])
    .chain((ais) => fc.tuple(...ais.map((ai) => words.map((value): Element => ({ ai, value })))));

  it('elements → link → elements, whatever the order in which they are given', () => {
    fc.assert(
      fc.property(gtin, qualifiers, some, fc.nat(), (value, inPath, others, turn) => {
        const given = [...others, ...inPath, { ai: '01', value }];
        const turned = [...given.slice(turn % given.length), ...given.slice(0, turn % given.length)];
        const [built, again] = [digitalLink(given, 'https://id.gs1.org'), digitalLink(turned, 'https://id.gs1.org')];
        expect(again).toEqual(built);
        if (!built.ok) throw new Error(built.problem.says);
        const read = readDigitalLink(built.uri);
        expect(read.problems.map(({ says }) => says)).toEqual([]);
        expect([...read.elements].sort((a, b) => (a.ai < b.ai ? -1 : 1))).toEqual([...given].sort((a, b) => (a.ai < b.ai ? -1 : 1)));
        expect(() => new URL(built.uri)).not.toThrow();
      }),
    );
  });
});

describe('check digits', () => {
  it('find every wrong digit', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...setOf.N), minLength: 7, maxLength: 17 }),
        fc.nat(),
        fc.integer({
          min: 1,
          max: 9,
        }),
        (body, at, by) => {
          const key = `${body}${checkDigitOf(body)}`;
          expect(checkDigitFits(key)).toBe(true);
          const i = at % key.length;
          expect(checkDigitFits(key.slice(0, i) + String((Number(key[i]) + by) % 10) + key.slice(i + 1))).toBe(false);
        },
      ),
    );
  });

  it('are the same with zeros in front, so a GTIN-13 and its GTIN-14 share one', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...setOf.N), minLength: 7, maxLength: 16 }), (body) => {
        expect(checkDigitOf(`0${body}`)).toBe(checkDigitOf(body));
      }),
    );
  });
});

describe('any text at all', () => {
  it('is answered, never thrown at, and an answer without problems says the same when built and read again', () => {
    const scrap = fc.constantFrom('(01)', '01', '(10)', '05412345000013', '\u001d', '(', '\\', ']C1', 'https://a/01/', '%', '?10=');
    const scraps = fc.array(fc.oneof(scrap, fc.string({ maxLength: 8 })), { maxLength: 8 });
    fc.assert(
      fc.property(
        scraps.map((list) => list.join('')).filter((text) => text !== ''),
        (text) => {
          const answer = gs1Parse.calculate({ text, codesBeside: true });
          if (!answer.ok || !answer.value.valid) return;
          const elements = answer.value.elements.map(({ ai, value }) => ({ ai, value }));
          expect(readElementString(elementString(elements)).elements).toEqual(elements);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('data beyond its length or set is told for every identifier', () => {
    fc.assert(
      fc.property(fc.constantFrom(...aiEntries.values()), (entry) => {
        expect(problemsOf({ ai: entry.ai, value: '1'.repeat(entry.maxLength + 1) }, 0, 2026).map(({ rule }) => rule)).toEqual(['length']);
        expect(problemsOf({ ai: entry.ai, value: '\u00e9'.repeat(entry.minLength) }, 0, 2026)[0]?.rule).toBe('charset');
      }),
    );
  });
});
