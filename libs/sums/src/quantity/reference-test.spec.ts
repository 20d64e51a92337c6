import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { referenceTest } from './reference-test.js';

/** Fifty weights about a mean, spread evenly a gram either side. */
const spreadOver = (n: number, mean: number) => Array.from({ length: n }, (_, i) => mean + (i % 2 === 0 ? 1 : -1));

describe('reference-test', () => {
  it('accepts a batch whose mean and contents are both within the plan', () => {
    // s of ± 1 about the mean is √(50/49); t(0.995, 49)/√50 = 0.379
    const s = Math.sqrt(50 / 49);
    expect(
      referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: spreadOver(50, 400), destructive: false }),
    ).toMatchObject({
      ok: true,
      value: {
        plan: { kind: 'single', n: 50, accept: 3, reject: 4, second: null, meanSample: 30 },
        tneGrams: 12,
        t1Grams: 388,
        defective: 0,
        meanGrams: 400,
        s: expect.closeTo(s, 12),
        t: expect.closeTo(2.67995, 4),
        meanLimitGrams: expect.closeTo(400 - 0.379 * s, 4),
        printedMeanLimitGrams: expect.closeTo(400 - 0.379 * s, 12),
        verdicts: { contents: 'accept', mean: 'accept' },
        verdict: 'accept',
      },
    });
  });

  it('rejects a mean below its limit', () => {
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: spreadOver(50, 399.61) })).toMatchObject({
      ok: true,
      value: { verdicts: { mean: 'reject', contents: 'accept' }, verdict: 'reject' },
    });
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: spreadOver(50, 399.63) })).toMatchObject({
      ok: true,
      value: { verdicts: { mean: 'accept' } },
    });
  });

  it('says so when the printed factor would decide otherwise', () => {
    const s = Math.sqrt(20 / 19);
    const between = 400 - 0.6398 * s; // between 0.63972 by the formula and 0.640 as printed
    expect(
      referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: spreadOver(20, between), destructive: true }),
    ).toMatchObject({
      ok: true,
      value: { verdicts: { mean: 'reject' }, cautions: expect.arrayContaining([expect.stringContaining('too close to call')]) },
    });
  });

  it('accepts a mean exactly at the limit', () => {
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: new Array(50).fill(400) })).toMatchObject({
      ok: true,
      value: { s: 0, meanLimitGrams: 400, verdicts: { mean: 'accept' } },
    });
  });

  it('gives a whole batch below 100 no allowance on the mean', () => {
    const base = { nominalGrams: 400, lotSize: 40 };
    expect(referenceTest.calculate({ ...base, weightsGrams: spreadOver(40, 400) })).toMatchObject({
      ok: true,
      value: { plan: { kind: 'whole-batch', n: 40, accept: 2 }, meanLimitGrams: 400, t: null, verdict: 'accept' },
    });
    expect(referenceTest.calculate({ ...base, weightsGrams: spreadOver(40, 399.9) })).toMatchObject({
      ok: true,
      value: { verdicts: { mean: 'reject' }, verdict: 'reject' },
    });
    expect(referenceTest.calculate({ ...base, weightsGrams: spreadOver(39, 401) })).toMatchObject({
      ok: true,
      value: { verdict: 'incomplete' },
    });
  });

  it('opens 20 packs in a destructive test, and gives none below 100', () => {
    const twenty = spreadOver(20, 400);
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 100, weightsGrams: twenty, destructive: true })).toMatchObject({
      ok: true,
      value: { plan: { kind: 'destructive', n: 20, accept: 1, reject: 2 }, verdict: 'accept' },
    });
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 99, weightsGrams: twenty, destructive: true })).toMatchObject({
      ok: true,
      value: { plan: null, verdict: null, verdicts: { contents: null, mean: null }, reason: expect.stringContaining('100') },
    });
  });

  it('gives no verdict below 5 g', () => {
    expect(referenceTest.calculate({ nominalGrams: 4, lotSize: 300, weightsGrams: new Array(50).fill(4) })).toMatchObject({
      ok: true,
      value: { tneGrams: null, verdict: null, reason: expect.stringContaining('5 g') },
    });
  });

  it('asks for the second sample of a double plan', () => {
    const first = [387, 387, ...spreadOver(28, 402)];
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: first, plan: 'double' })).toMatchObject({
      ok: true,
      value: { plan: { kind: 'double', n: 30, accept: 1, reject: 3, second: { n: 60, accept: 4, reject: 5 } }, verdict: 'second-sample' },
    });
    expect(
      referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: [...first, ...spreadOver(30, 402)], plan: 'double' }),
    ).toMatchObject({
      ok: true,
      value: { verdict: 'accept', defective: 2 },
    });
  });

  it('rejects on the mean without waiting for the rest', () => {
    const low = [387, 387, ...spreadOver(28, 398)];
    expect(referenceTest.calculate({ nominalGrams: 400, lotSize: 300, weightsGrams: low, plan: 'double' })).toMatchObject({
      ok: true,
      value: { verdicts: { contents: 'second-sample', mean: 'reject' }, verdict: 'reject' },
    });
  });

  it('does not depend on the order of a single sample', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 3800, max: 4200 }), { minLength: 50, maxLength: 50 }), (tenths) => {
        const weightsGrams = tenths.map((t) => t / 10);
        const plain = referenceTest.calculate({ nominalGrams: 400, lotSize: 400, weightsGrams });
        const turned = referenceTest.calculate({ nominalGrams: 400, lotSize: 400, weightsGrams: [...weightsGrams].reverse() });
        if (!plain.ok || !turned.ok) throw new Error('both are answered');
        expect([turned.value.defective, turned.value.verdict, turned.value.meanGrams]).toEqual([
          plain.value.defective,
          plain.value.verdict,
          plain.value.meanGrams,
        ]);
      }),
    );
  });

  it.each([
    [{ lotSize: 300, weightsGrams: [400] }, 'nominalGrams'],
    [{ nominalGrams: 400, weightsGrams: [400] }, 'lotSize'],
    [{ nominalGrams: 400, lotSize: 0, weightsGrams: [400] }, 'lotSize'],
    [{ nominalGrams: 400, lotSize: 300.5, weightsGrams: [400] }, 'lotSize'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: [] }, 'weightsGrams'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: [-1] }, 'weightsGrams.0'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: [Number.NaN] }, 'weightsGrams.0'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: new Array(51).fill(400) }, 'weightsGrams'],
    [{ nominalGrams: 400, lotSize: 3, weightsGrams: [400, 400, 400, 400] }, 'weightsGrams'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: [400], destructive: 'yes' }, 'destructive'],
    [{ nominalGrams: 400, lotSize: 300, weightsGrams: [400], destructive: true, plan: 'double' }, 'plan'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(referenceTest.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });
});
