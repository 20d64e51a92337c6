import { describe, expect, it } from '@jest/globals';
import { averageQuantity, referenceTest } from '@bakehouse/sums';
import jstat from 'jstat';

function answered<T>(outcome: { ok: true; value: T } | { ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}

/** Share below x under Student's t by Simpson's rule on the density: shares nothing with the library's quantile. */
function studentBelow(x: number, degrees: number): number {
  const density = (u: number) => (1 + (u * u) / degrees) ** (-(degrees + 1) / 2);
  const area = (to: number) => {
    const [parts, step] = [20_000, to / 20_000];
    let sum = density(0) + density(to);
    for (let i = 1; i < parts; i += 1) sum += density(i * step) * (i % 2 === 0 ? 2 : 4);
    return (sum * step) / 3;
  };
  return 0.5 + area(x) / (2 * area(400));
}

describe('packers’ rules (SI 2006/659; Directive 76/211/EEC Annex I)', () => {
  it.each([
    [50, 4.5, 45.5, 41],
    [100, 4.5, 95.5, 91],
    [200, 9, 191, 182],
    [300, 9, 291, 282],
    [400, 12, 388, 376],
    [500, 15, 485, 470],
    [800, 15, 785, 770],
    [1000, 15, 985, 970],
    [10_000, 150, 9850, 9700],
    [15_000, 150, 14_850, 14_700],
  ])('%i g: TNE %f, T1 %f, T2 %f', (nominalGrams, tneGrams, t1Grams, t2Grams) => {
    expect(answered(averageQuantity.calculate({ nominalGrams }))).toMatchObject({ tneGrams, t1Grams, t2Grams });
  });
});

describe('reference test (SI 2006/659 Sch. 2)', () => {
  // Weights with s exactly 1 would need an odd spread: scale ± 1 by √((n − 1)/n) instead.
  const unit = (n: number) => Array.from({ length: n }, (_, i) => 400 + (i % 2 === 0 ? 1 : -1) * Math.sqrt((n - 1) / n));

  it.each([
    [30, 300, false, 0.503, 'incomplete'],
    [50, 300, false, 0.379, 'accept'],
    [20, 300, true, 0.64, 'accept'],
  ])('takes t(0.995, n − 1)/√n at n = %i as the schedule prints it, to three decimals', (n, lotSize, destructive, factor, contents) => {
    const answer = answered(referenceTest.calculate({ nominalGrams: 400, lotSize, weightsGrams: unit(n), destructive }));
    expect(answer.s ?? 0).toBeCloseTo(1, 10);
    expect((400 - (answer.meanLimitGrams ?? 0)).toFixed(3)).toBe(factor.toFixed(3));
    expect(answer.verdicts.contents).toBe(contents);
  });

  it('uses quantiles that a direct integration of the density confirms', () => {
    for (const degrees of [19, 29, 49, 79, 124]) expect(studentBelow(jstat.studentt.inv(0.995, degrees), degrees)).toBeCloseTo(0.995, 7);
  });

  // Printed in tables of Student's t (from memory): 2.861 at 19, 2.756 at 29, 2.680 at 49.
  it('uses quantiles that printed tables give', () => {
    expect([19, 29, 49].map((degrees) => jstat.studentt.inv(0.995, degrees).toFixed(3))).toEqual(['2.861', '2.756', '2.680']);
  });
});
