import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { formulaContent, kindOf } from '@bakehouse/records';
import * as z from 'zod';
import { wantedOf } from './wanted.js';

const example = z.object({ content: formulaContent }).parse(kindOf({ kind: 'formula-approved' })?.examples[0]);
const { content } = example;
const [tin] = content.products;
const sumOf = (asked: Parameters<typeof wantedOf>[1]): [number, number] | string => {
  const wanted = wantedOf(content, asked);
  if (!wanted.ok) return `${wanted.problem} ${wanted.field}`;
  return wanted.value ? [wanted.value.scaled.mg, wanted.value.scaled.lines.reduce((mg, l) => mg + l.mg, 0)] : 'nothing asked';
};

describe('wantedOf', () => {
  // One pound is 453.59237 g and one ounce a sixteenth of it, exactly: NIST SP 811 (2008) appendix B.8.
  it('takes pounds and ounces for what they are by definition', () => {
    expect(sumOf({ pounds: '1' })).toEqual([453_592, 453_592]);
    expect(sumOf({ pounds: '91', ounces: '6.25' })).toEqual([41_454_090, 41_454_090]);
    expect(sumOf({ ounces: '16' })).toEqual(sumOf({ pounds: '1' }));
  });

  it('takes pieces at their scaling weight with what is kept besides, and grams', () => {
    expect(sumOf({ pieces: [`${tin?.product}:20`], besidesGrams: '1200.5' })).toEqual([20 * 910_000 + 1_200_500, 20 * 910_000 + 1_200_500]);
    expect(sumOf({ grams: '41450' })).toEqual([41_450_000, 41_450_000]);
    expect(sumOf({})).toBe('nothing asked');
  });

  it.each<[Parameters<typeof wantedOf>[1], string]>([
    [{ grams: '1', pounds: '1' }, 'unacceptable-value grams'],
    [{ pieces: [`${content.makes}:3`] }, 'unknown-material pieces'],
    [{ grams: '0' }, 'unacceptable-value grams'],
    [{ pounds: '0', ounces: '0' }, 'unacceptable-value pounds'],
    [{ besidesGrams: '5' }, 'unacceptable-value besidesGrams'],
    [{ grams: '999999999' }, 'unacceptable-value grams'],
    [{ grams: '5', besidesGrams: '5' }, 'unacceptable-value besidesGrams'],
    [{ pieces: [`${tin?.product}:5`], ounces: '1' }, 'unacceptable-value pounds'],
  ])('refuses %j', (asked, refusal) => {
    expect(sumOf(asked)).toBe(refusal);
  });

  it('sums to the milligram that was asked for, whatever the amount', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_999_999 }), fc.integer({ min: 0, max: 15_999 }), (grams, ounces) => {
        expect(sumOf({ grams: (grams / 1000).toFixed(3) })).toEqual([grams, grams]);
        const [mg, sum] = sumOf({ pounds: String(grams % 1000), ounces: (ounces / 1000 + 0.001).toFixed(3) });
        expect(sum).toBe(mg);
      }),
    );
  });
});
