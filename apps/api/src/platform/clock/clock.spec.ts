import { describe, expect, it } from '@jest/globals';
import { SettableClock, systemClock } from './clock.js';

describe('a clock that can be set', () => {
  it('stands until it is moved', () => {
    const clock = new SettableClock('2026-11-24T04:40:00+01:00');
    expect(clock.now().toISOString()).toBe('2026-11-24T03:40:00.000Z');
    clock.advance({ hours: 1, minutes: 2, seconds: 3, ms: 4 });
    expect(clock.now().toISOString()).toBe('2026-11-24T04:42:03.004Z');
    clock.set(new Date('2026-11-25T00:00:00Z'));
    expect(clock.now().toISOString()).toBe('2026-11-25T00:00:00.000Z');
  });

  it('hands out dates that cannot move it', () => {
    const clock = new SettableClock('2026-11-24T00:00:00Z');
    clock.now().setUTCFullYear(1999);
    expect(clock.now().getUTCFullYear()).toBe(2026);
  });

  it('refuses what is no instant', () => {
    expect(() => new SettableClock('half past four')).toThrow(RangeError);
  });
});

describe('the system clock', () => {
  it('does not run back', () => {
    const first = systemClock.now();
    expect(systemClock.now().getTime()).toBeGreaterThanOrEqual(first.getTime());
  });
});
