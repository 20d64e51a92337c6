import { describe, expect, it } from '@jest/globals';
import { isTooEarly } from './too-early';

describe('a reading before it is due', () => {
  it.each([
    ['2026-11-25T04:30:00Z', true],
    ['2026-11-25T04:29:59Z', true],
    ['2026-11-25T04:30:01Z', false],
    ['2026-11-25T04:40:00Z', false],
    ['2026-11-25T05:40:00Z', false],
  ])('at %s of one due at 04:40 is asked about: %s', (at, asked) => {
    expect(isTooEarly(at, '2026-11-25T04:40:00Z')).toBe(asked);
  });

  it('is not asked about where nobody knows when it is due', () => {
    expect(isTooEarly('2026-11-25T04:30:00Z', null)).toBe(false);
  });
});
