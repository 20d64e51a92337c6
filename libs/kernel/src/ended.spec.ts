import { describe, expect, it } from '@jest/globals';
import { isEnded } from './ended.js';

describe('isEnded', () => {
  it.each([
    [[], ['1'], false],
    [['2'], ['1'], true],
    [['2'], ['1', '3'], false],
    [['2', '4'], ['1', '3'], true],
    [['2'], ['2'], true], // both at once: the safe side is that it ended
    [['9'], ['1'], false],
    [['2'], ['1', '9'], true], // what comes after the instant asked for does not count
  ])('ends %j, beginnings %j, at 5: %p', (ends, beginnings, ended) => {
    expect(isEnded(ends, beginnings, '5')).toBe(ended);
  });
});
