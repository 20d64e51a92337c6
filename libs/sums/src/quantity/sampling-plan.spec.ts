import { describe, expect, it } from '@jest/globals';
import { judgeContents, planFor } from './sampling-plan.js';

const single = (lot: number) => planFor(lot, false, false);
const double = (lot: number) => planFor(lot, false, true);
const packs = (good: number, bad: number) => [...new Array<number>(bad).fill(1), ...new Array<number>(good).fill(9)];

describe('sampling plans (SI 2006/659 Sch. 2)', () => {
  it.each([
    [100, 50, 3, 4, 30],
    [500, 50, 3, 4, 30],
    [501, 80, 5, 6, 50],
    [3200, 80, 5, 6, 50],
    [3201, 125, 7, 8, 50],
    [10_000, 125, 7, 8, 50],
  ])('single, a batch of %i: %i packs, accept %i, reject %i; mean of %i', (lot, n, accept, reject, meanSample) => {
    expect(single(lot)).toMatchObject({ kind: 'single', stages: [{ n, accept, reject }], meanSample });
  });

  it.each([
    [100, [30, 1, 3], [60, 4, 5]],
    [500, [30, 1, 3], [60, 4, 5]],
    [501, [50, 2, 5], [100, 6, 7]],
    [3200, [50, 2, 5], [100, 6, 7]],
    [3201, [80, 3, 7], [160, 8, 9]],
  ])('double, a batch of %i (Directive 76/211/EEC Annex II 2.2.1)', (lot, first, second) => {
    expect(double(lot)?.stages.map(({ n, accept, reject }) => [n, accept, reject])).toEqual([first, second]);
  });

  it('weighs every pack below 100, accepting 5 %', () => {
    expect(single(99)).toMatchObject({ kind: 'whole-batch', stages: [{ n: 99, accept: 4, reject: 5 }] });
    expect(single(20)).toMatchObject({ stages: [{ n: 20, accept: 1, reject: 2 }] });
    expect(single(19)).toMatchObject({ stages: [{ n: 19, accept: 0, reject: 1 }] });
  });

  it('opens 20 packs of 100 and more, and none of fewer', () => {
    expect(planFor(100, true, false)).toMatchObject({ kind: 'destructive', stages: [{ n: 20, accept: 1, reject: 2 }], meanSample: 20 });
    expect(planFor(99, true, false)).toBeUndefined();
  });

  it('judges a single plan at its two numbers', () => {
    const stages = single(300)?.stages ?? [];
    expect(judgeContents(stages, packs(47, 3), 5)).toEqual({ verdict: 'accept', defective: 3 });
    expect(judgeContents(stages, packs(46, 4), 5)).toEqual({ verdict: 'reject', defective: 4 });
    expect(judgeContents(stages, packs(46, 3), 5).verdict).toBe('incomplete');
    expect(judgeContents(stages, packs(0, 4), 5).verdict).toBe('reject');
    expect(judgeContents(stages, [...packs(49, 0), 5], 5)).toEqual({ verdict: 'accept', defective: 0 });
  });

  it('judges a double plan in its two steps', () => {
    const stages = double(300)?.stages ?? [];
    expect(judgeContents(stages, packs(29, 1), 5).verdict).toBe('accept');
    expect(judgeContents(stages, packs(28, 2), 5).verdict).toBe('second-sample');
    expect(judgeContents(stages, packs(27, 3), 5).verdict).toBe('reject');
    expect(judgeContents(stages, [...packs(28, 2), ...packs(10, 0)], 5).verdict).toBe('incomplete');
    expect(judgeContents(stages, [...packs(28, 2), ...packs(28, 2)], 5)).toEqual({ verdict: 'accept', defective: 4 });
    expect(judgeContents(stages, [...packs(28, 2), ...packs(27, 3)], 5)).toEqual({ verdict: 'reject', defective: 5 });
  });
});
