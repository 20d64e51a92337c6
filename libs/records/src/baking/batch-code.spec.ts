import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { datedTooFar, proposedCode, proposedDates } from './batch-code.js';

describe('the code of a batch', () => {
  it('is the year’s last figure, the day of the year and three letters of the product', () => {
    expect(proposedCode('2026-11-25', 'tin')).toMatch(/^6329-[CDFHJKMNPRTVWXYZ]{3}$/);
    expect(proposedCode('2028-12-31', 'tin').slice(0, 4)).toBe('8366');
  });

  it('gets a number behind it where it is taken, and never the same twice', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), (n) => {
        const taken: string[] = [];
        for (let i = 0; i < n; i += 1) taken.push(proposedCode('2026-11-25', 'tin', taken));
        return new Set(taken).size === n;
      }),
    );
  });
});

describe('the date of a batch', () => {
  it.each([
    ['2026-11-25', 3, 'best-before', { bestBefore: '2026-11-28', useBy: null }],
    ['2026-12-30', 2, 'use-by', { bestBefore: null, useBy: '2027-01-01' }],
    ['2026-11-25', null, null, { bestBefore: null, useBy: null }],
  ] as const)('%s with %s days, %s', (bakedOn, lifeDays, dateType, dates) => {
    expect(proposedDates(bakedOn, { lifeDays, dateType })).toEqual(dates);
  });

  const useBy = (date: string | null) => ({ bestBefore: null, useBy: date });
  const bestBefore = (date: string | null) => ({ bestBefore: date, useBy: null });
  it.each([
    [useBy('2026-11-28'), useBy('2026-11-27'), 'use-by'],
    [useBy('2026-11-27'), useBy('2026-11-27'), 'no'],
    [useBy('2026-11-26'), useBy('2026-11-27'), 'no'],
    [bestBefore('2026-11-27'), useBy('2026-11-27'), 'use-by'],
    [bestBefore(null), useBy('2026-11-27'), 'use-by'],
    [bestBefore('2026-11-29'), bestBefore('2026-11-28'), 'best-before'],
    [useBy('2026-11-28'), bestBefore('2026-11-28'), 'no'],
    [bestBefore(null), bestBefore('2026-11-28'), 'no'],
    [bestBefore('2026-11-29'), bestBefore(null), 'no'],
  ] as const)('%j where the formula says %j: %s too far', (dates, proposed, tooFar) => {
    expect(datedTooFar(dates, proposed)).toBe(tooFar);
  });
});
