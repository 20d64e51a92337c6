import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { SettableClock } from '../clock/index.js';
import { DailyBackup } from './daily-backup.js';
import { backupsIn, fileName } from './folder.js';
import type { TakenBackup } from './write.js';

const hour = 3_600_000;

describe('the daily backup', () => {
  let folder: string;
  let clock: SettableClock;
  const logged: string[] = [];
  const log = { log: (words: string) => logged.push(`log: ${words}`), error: (words: string) => logged.push(`error: ${words}`) };
  let fail: boolean;
  let taken: number;

  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'daily-'));
    clock = new SettableClock('2026-11-25T03:00:00Z');
    [fail, taken] = [false, 0];
    logged.length = 0;
    jest.useFakeTimers({ doNotFake: ['nextTick', 'setImmediate', 'queueMicrotask'] });
  });
  afterEach(() => {
    jest.useRealTimers();
    rmSync(folder, { recursive: true });
  });

  const take = async (): Promise<TakenBackup> => {
    if (fail) throw new Error('the disk is away');
    taken += 1;
    const file = path.join(folder, fileName(clock.now()));
    writeFileSync(file, 'backup');
    return { file, at: clock.now().toISOString(), bytes: 6, rows: 1, sha256: '', books: [] };
  };
  /** So many hours go by, and what each of them began comes to its end. */
  const passes = async (daily: DailyBackup, hours: number): Promise<void> => {
    for (let i = 0; i < hours; i += 1) {
      clock.advance({ hours: 1 });
      jest.advanceTimersByTime(hour);
      await daily.idle();
    }
  };

  it('is taken at the start where none is a day old, then once a day, and the next start does not take another', async () => {
    const daily = new DailyBackup({ folder, clock, take, log });
    daily.start();
    await daily.idle();
    expect(taken).toBe(1);
    await passes(daily, 23);
    expect(taken).toBe(1);
    await passes(daily, 1);
    expect(taken).toBe(2);
    await daily.stop();
    const next = new DailyBackup({ folder, clock, take, log });
    next.start();
    await next.idle();
    expect(taken).toBe(2);
    await next.stop();
  });

  it('is tried again after an hour where it failed, and the log says why', async () => {
    fail = true;
    const daily = new DailyBackup({ folder, clock, take, log });
    daily.start();
    await daily.idle();
    expect(logged).toEqual(['error: the backup failed, and is tried again in an hour: the disk is away']);
    fail = false;
    await passes(daily, 1);
    expect([taken, logged[1]]).toEqual([1, expect.stringContaining('verified')]);
    await daily.stop();
  });

  it('is given up when the service ends, without a word in the log', async () => {
    let begun = (): void => undefined;
    const called = new Promise<void>((resolve) => (begun = resolve));
    const unending = (signal: AbortSignal): Promise<TakenBackup> => {
      begun();
      return new Promise((_, reject) => signal.addEventListener('abort', () => reject(new Error('given up'))));
    };
    const daily = new DailyBackup({ folder, clock, take: unending, log });
    daily.start();
    await called;
    await daily.stop();
    expect(logged).toEqual([]);
  });

  it('deletes what the rule does not keep and what was left unfinished, and nothing else', async () => {
    const old = ['bakehouse-20260101T030000Z.age', 'bakehouse-20260101T030000Z.json', 'bakehouse-20260101T040000Z.age'];
    const others = ['holiday.jpg', 'bakehouse.age', 'bakehouse-20260101T030000Z.age.txt'];
    for (const name of [...old, ...others, 'bakehouse-20260102T030000Z.age.unfinished']) writeFileSync(path.join(folder, name), '');
    const daily = new DailyBackup({ folder, clock, take, log });
    daily.start();
    await daily.idle();
    expect(readdirSync(folder).sort()).toEqual([...others, old[2], 'bakehouse-20261125T030000Z.age'].sort());
    expect((await backupsIn(folder)).map(({ at }) => at.toISOString())).toEqual(['2026-11-25T03:00:00.000Z', '2026-01-01T04:00:00.000Z']);
    await daily.stop();
  });
});
