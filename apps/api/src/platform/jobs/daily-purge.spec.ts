import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { Logger } from '@nestjs/common';
import { DailyPurge } from './daily-purge.js';
import type { Purged } from './purge.js';

const day = 86_400_000;

describe('the daily purge', () => {
  beforeEach(() => {
    jest.useFakeTimers();
    Logger.overrideLogger(false);
  });
  afterEach(() => {
    jest.useRealTimers();
  });

  it('is done at the start and once a day until the service stops, also after one that failed', async () => {
    let runs = 0;
    const run = (): Promise<readonly Purged[]> => {
      runs += 1;
      return runs === 1 ? Promise.reject(new Error('the database is away')) : Promise.resolve([]);
    };
    const daily = new DailyPurge({ run });
    daily.onApplicationBootstrap();
    expect(runs).toBe(1);
    await jest.advanceTimersByTimeAsync(day - 1);
    expect(runs).toBe(1);
    await jest.advanceTimersByTimeAsync(1);
    expect(runs).toBe(2);
    await daily.beforeApplicationShutdown();
    await jest.advanceTimersByTimeAsync(3 * day);
    expect(runs).toBe(2);
  });
});
