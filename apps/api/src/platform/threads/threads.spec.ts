import { afterEach, describe, expect, it } from '@jest/globals';
import { Threads } from './threads.js';

const made: Threads<string, string>[] = [];
const working = (more: { readonly limitMs?: number } = {}): Threads<string, string> => {
  const threads = new Threads<string, string>({
    module: new URL('../../../../../test/support/odd-worker.js', import.meta.url),
    task: 'work',
    maxWaiting: 2,
    retryAfterSeconds: 7,
    limitMs: 120_000,
    memoryMb: 64,
    ...more,
  });
  made.push(threads);
  return threads;
};
afterEach(() => Promise.all(made.splice(0).map((one) => one.close())));

describe('work in threads', () => {
  it('is done after work that fails, and what failed is told', async () => {
    const threads = working();
    await expect(threads.run('fail')).rejects.toThrow('it failed');
    expect(await threads.run('echo')).toBe('echo');
  });

  it('ends after its time, with its thread, and the next is done in another', async () => {
    const threads = working({ limitMs: 1 });
    await expect(threads.run('never end')).rejects.toMatchObject({ problem: { problem: 'took-too-long' } });
    expect(await threads.run('echo', new AbortController().signal)).toBe('echo');
  });

  it('ends where it needs more memory than it may have, and the service does not', async () => {
    await expect(working().run('grow')).rejects.toMatchObject({ problem: { problem: 'took-too-long' } });
  });

  it('waits so much at most: one more is told when to come again, and none of those that wait is lost', async () => {
    const threads = working();
    const asked = ['one', 'two', 'three', 'four'].map((word) => threads.run(word));
    await expect(asked.pop()).rejects.toMatchObject({ problem: { problem: 'unavailable' }, headers: { 'retry-after': '7' } });
    expect(await Promise.all(asked)).toEqual(['one', 'two', 'three']);
  });

  it('is told as not ready once it is closed: what is done, what waits and what is asked later', async () => {
    const threads = working();
    const asked = ['never end', 'two'].map((word) => threads.run(word));
    const told = Promise.allSettled(asked);
    await threads.close();
    const unavailable = expect.objectContaining({ problem: { problem: 'unavailable' } });
    expect((await told).map((one) => one.status === 'rejected' && one.reason)).toEqual([unavailable, unavailable]);
    await expect(threads.run('three')).rejects.toEqual(unavailable);
  });
});
