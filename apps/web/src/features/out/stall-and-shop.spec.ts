import { describe, expect, it } from '@jest/globals';
import { untilOf } from './stall-and-shop';

describe('when a stall ends', () => {
  it.each([
    ['13:00', '2026-11-28T06:00:07.610Z', '2026-11-28T13:00:00.000Z'],
    ['01:00', '2026-11-28T20:00:00.000Z', '2026-11-29T01:00:00.000Z'],
    ['13:00', '2026-07-28T06:00:00.000Z', '2026-07-28T12:00:00.000Z'],
  ])('at %s, said at %s, is %s', (time, now, ends) => {
    const until = untilOf(time, 'Europe/London', now);
    expect(until === null ? null : new Date(until).toISOString()).toBe(ends);
  });
  it('is not said where nobody said it', () => {
    expect(untilOf('', 'Europe/London', '2026-11-28T06:00:00.000Z')).toBeNull();
  });
});
