import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { DailySeals } from './daily-seals.js';
import type { Left } from './leave-house.js';

const hour = 3_600_000;

describe('letting seals leave the house', () => {
  const logged: string[] = [];
  const log = { log: (words: string) => logged.push(`log: ${words}`), error: (words: string) => logged.push(`error: ${words}`) };
  beforeEach(() => {
    logged.length = 0;
    jest.useFakeTimers();
  });
  afterEach(() => {
    jest.useRealTimers();
  });

  it('is done at the start and every hour until the service stops, also after it failed; and the log says what happened', async () => {
    const answers: readonly (() => Promise<Left>)[] = [
      () => Promise.reject(new Error('the database is away')),
      () => Promise.resolve({ done: ['a file'], failed: ['a witness is away'], alarms: ['another history'] }),
    ];
    let runs = 0;
    const daily = new DailySeals({ log, leave: () => answers[runs++]?.() ?? Promise.resolve({ done: [], failed: [], alarms: [] }) });
    daily.start();
    await daily.idle();
    expect(logged).toEqual(['error: the seals did not leave, and are tried again in an hour: the database is away']);
    await jest.advanceTimersByTimeAsync(hour);
    await daily.idle();
    expect(logged.slice(1)).toEqual(['log: a file', 'error: a witness is away; tried again in an hour', 'error: another history']);
    await daily.stop();
    await jest.advanceTimersByTimeAsync(3 * hour);
    await daily.idle();
    expect(runs).toBe(2);
  });

  it('is given up when the service ends, and not begun by a start that comes after', async () => {
    let begun = (): void => undefined;
    const called = new Promise<void>((resolve) => (begun = resolve));
    let runs = 0;
    const leave = (signal: AbortSignal): Promise<Left> => {
      runs += 1;
      begun();
      return new Promise((_, reject) => signal.addEventListener('abort', () => reject(new Error('given up'))));
    };
    const daily = new DailySeals({ log, leave });
    daily.start();
    await called;
    await daily.stop();
    daily.start();
    await daily.idle();
    expect([runs, logged]).toEqual([1, []]);
  });
});
