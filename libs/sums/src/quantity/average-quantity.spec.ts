import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { averageQuantity } from './average-quantity.js';
import { Exact, exactSum } from './tolerable-error.js';

const verdicts = (raw: unknown) => {
  const answer = averageQuantity.calculate(raw);
  if (!answer.ok) throw new Error(`refused: ${JSON.stringify(answer)}`);
  return answer.value.rules.map(({ verdict }) => verdict);
};
const packs = (good: number, bad: number[], weight = 401) => [...new Array<number>(good).fill(weight), ...bad];

describe('average-quantity', () => {
  it('gives the limits without weights, and no verdict', () => {
    expect(averageQuantity.calculate({ nominalGrams: 400 })).toMatchObject({
      ok: true,
      value: {
        tneGrams: 12,
        t1Grams: 388,
        t2Grams: 376,
        meanGrams: null,
        verdict: null,
        rules: [{ verdict: null }, { verdict: null }, { verdict: null }],
      },
    });
  });

  it('gives no figure below 5 g, and says why', () => {
    expect(averageQuantity.calculate({ nominalGrams: 4.9, weightsGrams: [4.9] })).toMatchObject({
      ok: true,
      value: { tneGrams: null, t1Grams: null, t2Grams: null, verdict: null, reason: expect.stringContaining('5 g') },
    });
  });

  it('judges the mean at the nominal quantity exactly', () => {
    expect(verdicts({ nominalGrams: 400.1, weightsGrams: [400, 400.1, 400.2] })[0]).toBe('pass');
    expect(verdicts({ nominalGrams: 400, weightsGrams: [399.9, 400] })[0]).toBe('fail');
    expect(verdicts({ nominalGrams: 0.3 * 100, weightsGrams: [29.9, 30, 30.1] })[0]).toBe('pass');
  });

  it('allows 2.5 % below T1 and not one more; a pack at T1 is not below it', () => {
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(39, [387.9]) })).toEqual(['pass', 'pass', 'pass']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(38, [387.9]) })).toEqual(['pass', 'fail', 'pass']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(38, [388]) })).toEqual(['pass', 'pass', 'pass']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(78, [387, 387]) })).toEqual(['pass', 'pass', 'pass']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(77, [387, 387], 402) })).toEqual(['pass', 'fail', 'pass']);
  });

  it('allows none below T2; a pack at T2 is not below it', () => {
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(99, [376]) })).toEqual(['pass', 'pass', 'pass']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(99, [375.9]) })).toEqual(['pass', 'pass', 'fail']);
    expect(verdicts({ nominalGrams: 400, weightsGrams: packs(999, [0]) })[2]).toBe('fail');
  });

  it('does not depend on the order of the packs, and no pack made heavier loses a rule', () => {
    const sample = fc.array(fc.integer({ min: 3700, max: 4300 }), { minLength: 1, maxLength: 80 });
    fc.assert(
      fc.property(sample, fc.nat(), fc.integer({ min: 1, max: 300 }), (tenths, place, more) => {
        const weightsGrams = tenths.map((t) => t / 10);
        const before = verdicts({ nominalGrams: 400, weightsGrams });
        expect(verdicts({ nominalGrams: 400, weightsGrams: [...weightsGrams].reverse() })).toEqual(before);
        const heavier = weightsGrams.map((weight, i) => (i === place % weightsGrams.length ? weight + more : weight));
        const after = verdicts({ nominalGrams: 400, weightsGrams: heavier });
        for (const [i, verdict] of before.entries()) if (verdict === 'pass') expect(after[i]).toBe('pass');
      }),
    );
  });

  it('says that the reach of the law above 25 kg is to be confirmed', () => {
    expect(averageQuantity.calculate({ nominalGrams: 30_000 })).toMatchObject({
      ok: true,
      value: { tneGrams: 300, cautions: expect.arrayContaining([expect.stringContaining('25 kg')]) },
    });
  });

  it.each([
    [{}, 'nominalGrams'],
    [{ nominalGrams: 0 }, 'nominalGrams'],
    [{ nominalGrams: -400 }, 'nominalGrams'],
    [{ nominalGrams: Number.NaN }, 'nominalGrams'],
    [{ nominalGrams: Number.POSITIVE_INFINITY }, 'nominalGrams'],
    [{ nominalGrams: '400 g' }, 'nominalGrams'],
    [{ nominalGrams: 400, weightsGrams: [] }, 'weightsGrams'],
    [{ nominalGrams: 400, weightsGrams: [400, -1] }, 'weightsGrams.1'],
    [{ nominalGrams: 400, weightsGrams: [Number.NaN] }, 'weightsGrams.0'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(averageQuantity.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million packs and refuses one more', () => {
    const million = new Array<number>(1_000_000).fill(400.1);
    const answer = averageQuantity.calculate({ nominalGrams: 400.1, weightsGrams: million });
    if (!answer.ok) throw new Error('answered');
    expect([answer.value.meanGrams, answer.value.verdict]).toEqual([400.1, 'pass']);
    expect(averageQuantity.calculate({ nominalGrams: 400, weightsGrams: [...million, 1] })).toMatchObject({
      ok: false,
      field: 'weightsGrams',
    });
  });

  it('adds weights of any number of decimals exactly', () => {
    // 0.1 + 0.2 + 0.3000000001 + 1e-7 by hand
    expect(exactSum([0.1, 0.2, 0.3000000001, 1e-7]).toFixed()).toBe('0.6000001001');
    expect(exactSum(Array.from({ length: 1000 }, () => 1e9)).toFixed()).toBe('1000000000000');
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1e-9, max: 1e9, noNaN: true })), (weights) => {
        expect(exactSum(weights).toFixed()).toBe(weights.reduce((sum, one) => sum.plus(one), new Exact(0)).toFixed());
      }),
      { numRuns: 200 },
    );
  });
});
