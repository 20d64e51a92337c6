import { describe, expect, it } from '@jest/globals';
import type { TimerView } from '@bakehouse/views';
import fc from 'fast-check';
import { ringsNow } from './rings-now';

const base = {
  subjectType: 'load',
  subject: 'a',
  name: 'Bap',
  step: 'bake',
  placeName: 'Top deck',
  since: '2026-11-25T04:00:00.000Z',
  latest: null,
} as const;
const due = Date.parse('2026-11-25T04:30:00.000Z');
const at = (ms: number): string => new Date(ms).toISOString();

describe('what rings', () => {
  it('is over, and has been for less than half an hour', () => {
    fc.assert(
      fc.property(fc.integer({ min: -7_200_000, max: 7_200_000 }), (after) => {
        const timer: TimerView = { ...base, due: at(due) };
        expect(ringsNow([timer], at(due + after))).toEqual(after >= 0 && after < 1_800_000 ? [timer] : []);
      }),
    );
  });

  it('is nothing that nobody planned', () => {
    expect(ringsNow([{ ...base, due: null }], at(due))).toEqual([]);
  });
});
