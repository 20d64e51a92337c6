import { describe, expect, it } from '@jest/globals';
import { Lane, maxWaiting } from './lanes.js';

/** A lane whose commits wait until they are let go, and what each of them took. */
function heldLane() {
  let letGo = (): void => undefined;
  const held = new Promise<void>((resolve) => (letGo = resolve));
  const commits: number[] = [];
  const lane = new Lane<number, number>(async (jobs) => {
    commits.push(jobs.length);
    await held;
    return [...jobs];
  });
  return { lane, commits, letGo };
}
const numbers = (from: number, count: number): number[] => Array.from({ length: count }, (_, i) => from + i);

describe('a lane', () => {
  it('joins what arrives during a commit, 400 at most, and answers each its own', async () => {
    const { lane, commits, letGo } = heldLane();
    const asked = [[1], numbers(10, 200), numbers(300, 200), [500]].map((jobs) => lane.add(jobs));
    letGo();
    expect(await Promise.all(asked)).toEqual([[1], numbers(10, 200), numbers(300, 200), [500]]);
    expect(commits).toEqual([1, 400, 1]);
  });

  it('lets so many wait, tells the next to come again, and loses none that waits', async () => {
    const { lane, letGo } = heldLane();
    const running = lane.add([0]);
    const waiting = numbers(0, maxWaiting / 200).map((n) => lane.add(numbers(n * 200, 200)));
    await expect(lane.add([-1])).rejects.toMatchObject({ problem: { problem: 'unavailable' }, headers: { 'retry-after': '2' } });
    letGo();
    expect(await running).toEqual([0]);
    expect((await Promise.all(waiting)).flat()).toEqual(numbers(0, maxWaiting));
    expect(await lane.add([-1])).toEqual([-1]);
  });

  it('takes one request however large where nothing waits', async () => {
    const { lane, letGo } = heldLane();
    letGo();
    expect(await lane.add(numbers(0, maxWaiting + 1))).toHaveLength(maxWaiting + 1);
  });
});
