import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import * as simple from 'simple-statistics';
import { capability, cusumChart, ewmaChart, individualsChart, xbarRChart, xbarSChart } from '@bakehouse/sums';

function answered<T>(outcome: { ok: true; value: T } | { ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}

describe('NIST/SEMATECH e-Handbook of Statistical Methods', () => {
  it('6.3.2.2: individuals chart of flow rates', () => {
    const answer = answered(individualsChart.calculate({ values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1] }));
    expect(answer.centre).toBeCloseTo(50.81, 10);
    expect(answer.meanMovingRange).toBeCloseTo(1.8778, 4);
    expect(answer.limits.upper).toBeCloseTo(55.8041, 4);
    expect(answer.limits.lower).toBeCloseTo(45.8159, 4);
    expect(answer.signals).toEqual([]);
  });

  // Data and smoothed values of the worked example are from memory; the limits were read in the published text (printed truncated).
  it('6.3.2.4: EWMA chart', () => {
    const values = [52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    const smoothed = [
      50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94,
      51.99,
    ];
    const answer = answered(ewmaChart.calculate({ values, lambda: 0.3, centre: 50, sigma: 2.0539 }));
    expect(Math.abs(answer.limits.upper - 52.5884)).toBeLessThan(1e-4);
    expect(Math.abs(answer.limits.lower - 47.4115)).toBeLessThan(1.1e-4);
    for (const [i, printed] of smoothed.entries()) expect(Math.abs((answer.points[i]?.ewma ?? 0) - printed)).toBeLessThanOrEqual(0.0101);
    expect(answer.signals).toEqual([]);
  });

  // Data and sums of the worked example are from memory of 6.3.2.3 and agree with the formula given there.
  it('6.3.2.3: tabular CUSUM, first signal at the fourteenth group', () => {
    const values = [
      324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25, 327.825,
      328.5, 326.675, 327.775, 326.875, 328.35,
    ];
    const answer = answered(cusumChart.calculate({ values, target: 325, k: 0.3175, h: 4.1959 }));
    const printedHigh = [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.0, 19.04];
    for (const [i, printed] of printedHigh.entries()) expect(Math.abs((answer.points[i]?.high ?? 0) - printed)).toBeLessThan(0.011);
    expect(answer.signals).toEqual([13, 14, 15, 16, 17, 18, 19].map((index) => ({ side: 'high', index })));
  });

  it('6.1.6: capability with USL 20, LSL 8, mean 16 and s 2', () => {
    const answer = answered(capability.calculate({ mean: 16, sigma: 2, lsl: 8, usl: 20 }));
    expect(answer.cp).toBeCloseTo(1, 12);
    expect(answer.cpk).toBeCloseTo(0.6667, 4);
  });
});

// Montgomery and Runger, Applied Statistics and Probability for Engineers, example 16-6 (tables 16-7 and 16-8), as published.
describe('Montgomery and Runger, tabular CUSUM of a chemical concentration', () => {
  it('gives the printed sums and no signal', () => {
    const values = [102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4, 97.2, 101];
    const answer = answered(cusumChart.calculate({ values, target: 99, k: 1, h: 10 }));
    const high = [2, 0, 0, 0, 2, 0.5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, 0.3, 1.7, 0, 1];
    const low = [0, 3.2, 2.9, 2.5, 0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 1, 2.3, 0, 0, 0.8, 0];
    expect(answer.points.map((point) => Number(point.high.toFixed(6)))).toEqual(high);
    expect(answer.points.map((point) => Number(point.low.toFixed(6)))).toEqual(low);
    expect(answer.signals).toEqual([]);
  });
});

// Montgomery, Introduction to Statistical Quality Control, table 6.3: inside diameters of piston rings, in mm.
const rings = [
  [74.03, 74.002, 74.019, 73.992, 74.008],
  [73.995, 73.992, 74.001, 74.011, 74.004],
  [73.988, 74.024, 74.021, 74.005, 74.002],
  [74.002, 73.996, 73.993, 74.015, 74.009],
  [73.992, 74.007, 74.015, 73.989, 74.014],
  [74.009, 73.994, 73.997, 73.985, 73.993],
  [73.995, 74.006, 73.994, 74, 74.005],
  [73.985, 74.003, 73.993, 74.015, 73.988],
  [74.008, 73.995, 74.009, 74.005, 74.004],
  [73.998, 74, 73.99, 74.007, 73.995],
  [73.994, 73.998, 73.994, 73.995, 73.99],
  [74.004, 74, 74.007, 74, 73.996],
  [73.983, 74.002, 73.998, 73.997, 74.012],
  [74.006, 73.967, 73.994, 74, 73.984],
  [74.012, 74.014, 73.998, 73.999, 74.007],
  [74, 73.984, 74.005, 73.998, 73.996],
  [73.994, 74.012, 73.986, 74.005, 74.007],
  [74.006, 74.01, 74.018, 74.003, 74],
  [73.984, 74.002, 74.003, 74.005, 73.997],
  [74, 74.01, 74.013, 74.02, 74.003],
  [73.982, 74.001, 74.015, 74.005, 73.996],
  [74.004, 73.999, 73.99, 74.006, 74.009],
  [74.01, 73.989, 73.99, 74.009, 74.014],
  [74.015, 74.008, 73.993, 74, 74.01],
  [73.982, 73.984, 73.995, 74.017, 74.013],
];

// Standard deviations of the first sixteen as printed in the table. The book works from rounded figures (from memory: mean 74.001, s̄ 0.0094,
// R̄ 0.023, limits of averages 74.014 and 73.988, of s 0.0196), so limits are compared within 0.001 and the rest within half a printed place.
const printedDeviations = [
  0.0148, 0.0075, 0.0147, 0.0091, 0.0122, 0.0087, 0.0055, 0.0123, 0.0055, 0.0063, 0.0029, 0.0042, 0.0105, 0.0153, 0.0073, 0.0078,
];

describe('Montgomery, piston rings', () => {
  it('averages and standard deviations', () => {
    const answer = answered(xbarSChart.calculate({ subgroups: rings }));
    expect(answer.standardDeviation.points.slice(0, 16).map((s) => Number(s.toFixed(4)))).toEqual(printedDeviations);
    expect(answer.centre).toBeCloseTo(74.001, 3);
    expect(answer.standardDeviation.centre).toBeCloseTo(0.0094, 4);
    expect(answer.standardDeviation.limits.upper).toBeCloseTo(0.0196, 4);
    expect(answer.standardDeviation.limits.lower).toBe(0);
    expect(Math.abs(answer.limits.upper - 74.014)).toBeLessThan(0.001);
    expect(Math.abs(answer.limits.lower - 73.988)).toBeLessThan(0.001);
    expect([answer.signals, answer.standardDeviation.signals]).toEqual([[], []]);
  });

  it('averages and ranges', () => {
    const answer = answered(xbarRChart.calculate({ subgroups: rings }));
    expect(answer.range.centre).toBeCloseTo(0.023, 3);
    expect(Math.abs(answer.limits.upper - 74.014)).toBeLessThan(0.001);
    expect(Math.abs(answer.limits.lower - 73.988)).toBeLessThan(0.001);
    expect(answer.range.limits.upper).toBeCloseTo(0.049, 3);
    expect([answer.signals, answer.range.signals]).toEqual([[], []]);
  });
});

describe('simple-statistics, in the same run', () => {
  const list = fc.array(fc.double({ min: -1e4, max: 1e4, noNaN: true }), { minLength: 5, maxLength: 5 });
  const lists = fc
    .array(list, { minLength: 2, maxLength: 20 })
    .filter((groups) => groups.some((values) => simple.max(values) - simple.min(values) > 1e-3));

  it('agrees on means, standard deviations and ranges of subgroups', () => {
    fc.assert(
      fc.property(lists, (subgroups) => {
        const s = answered(xbarSChart.calculate({ subgroups }));
        const r = answered(xbarRChart.calculate({ subgroups }));
        expect(s.centre).toBeCloseTo(simple.mean(subgroups.map((values) => simple.mean(values))), 8);
        expect(s.standardDeviation.centre).toBeCloseTo(simple.mean(subgroups.map((values) => simple.sampleStandardDeviation(values))), 8);
        expect(r.range.centre).toBeCloseTo(simple.mean(subgroups.map((values) => simple.max(values) - simple.min(values))), 8);
        // c4 once more, from its gamma functions: √(2/4)·Γ(5/2)/Γ(2)
        const c4 = Math.sqrt(0.5) * Math.exp(simple.gammaln(2.5) - simple.gammaln(2));
        expect(s.sigma * c4).toBeCloseTo(s.standardDeviation.centre, 8);
      }),
    );
  });

  it('agrees on the indices from values', () => {
    fc.assert(
      fc.property(
        list.filter((values) => simple.sampleStandardDeviation(values) > 1e-3),
        (values) => {
          const answer = answered(capability.calculate({ values, lsl: -2e4, usl: 2e4 }));
          const [mean, sigma] = [simple.mean(values), simple.sampleStandardDeviation(values)];
          expect(answer.cp ?? 0).toBeCloseTo(4e4 / (6 * sigma), 6);
          expect(answer.cpk).toBeCloseTo(Math.min(2e4 - mean, mean + 2e4) / (3 * sigma), 6);
        },
      ),
    );
  });
});
