import { describe, expect, it } from '@jest/globals';
import { oneQuestion } from './one-question';

describe('a question that several ask at once', () => {
  it('is put once while it is open, and all get its answer', async () => {
    const put: ((given: boolean) => void)[] = [];
    const question = oneQuestion<boolean>();
    const ask = () => question(() => new Promise<boolean>((answer) => put.push(answer)));
    const all = Promise.all([ask(), ask(), ask()]);
    expect(put).toHaveLength(1);
    put[0]?.(true);
    expect(await all).toEqual([true, true, true]);
    const later = ask();
    expect(put).toHaveLength(2);
    put[1]?.(false);
    expect(await later).toBe(false);
  });
});
