import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { HeadWatch } from './head-watch.js';

const watch = () => new HeadWatch({ reading: () => new Promise<never>(() => undefined) });
const listener = { organisation: 'a', session: 's', person: 'p', last: undefined, stillMay: () => Promise.resolve() };

describe('listening', () => {
  beforeEach(() => void jest.useFakeTimers());
  afterEach(() => void jest.useRealTimers());

  it('is told now and then that all is well, and ends once the listener’s session has', async () => {
    let may = true;
    const heard: unknown[] = [];
    const stillMay = () => (may ? Promise.resolve() : Promise.reject(new Error('session ended')));
    watch()
      .events({ ...listener, stillMay })
      .subscribe({ next: (event) => heard.push(event), complete: () => heard.push('ended') });
    await jest.advanceTimersByTimeAsync(25_000);
    may = false;
    await jest.advanceTimersByTimeAsync(25_000);
    expect(heard).toEqual([{ comment: 'alive' }, 'ended']);
  });

  it('is for so many in one process, and for the next when one has gone', () => {
    const full = watch();
    const all = Array.from({ length: 500 }, (_, i) => full.events({ ...listener, session: String(i), person: String(i) }).subscribe());
    expect(() => full.events(listener)).toThrow(expect.objectContaining({ problem: { problem: 'unavailable' } }));
    all[0]?.unsubscribe();
    all.push(full.events(listener).subscribe());
    for (const one of all) one.unsubscribe();
  });

  it('is for eight of one session, so that nobody takes the places of others', () => {
    const shared = watch();
    const mine = Array.from({ length: 8 }, () => shared.events(listener).subscribe());
    expect(() => shared.events(listener)).toThrow(expect.objectContaining({ problem: { problem: 'too-many-requests' } }));
    const theirs = shared.events({ ...listener, session: 'another', person: 'q' }).subscribe();
    mine[0]?.unsubscribe();
    mine.push(shared.events(listener).subscribe());
    for (const one of [...mine, theirs]) one.unsubscribe();
  });

  it('is for twenty-four of one person, however many sessions they open', () => {
    const shared = watch();
    const mine = Array.from({ length: 24 }, (_, i) => shared.events({ ...listener, session: String(i) }).subscribe());
    expect(() => shared.events({ ...listener, session: 'one more' })).toThrow(
      expect.objectContaining({ problem: { problem: 'too-many-requests' } }),
    );
    const theirs = shared.events({ ...listener, session: 'another', person: 'q' }).subscribe();
    mine[0]?.unsubscribe();
    mine.push(shared.events({ ...listener, session: 'one more' }).subscribe());
    for (const one of [...mine, theirs]) one.unsubscribe();
  });
});
