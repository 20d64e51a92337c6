import { describe, expect, it } from '@jest/globals';
import { c4Of, constantsFor } from './constants.js';

/** Standard normal distribution function by Simpson's rule on the density: independent of any table. */
function normalGrid(step: number, reach: number): { x: number; density: number; below: number }[] {
  const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const grid = [];
  let below = 0;
  for (let i = 0; i <= Math.round((2 * reach) / step); i += 1) {
    const x = -reach + i * step;
    if (i > 0) below += (step / 6) * (density(x - step) + 4 * density(x - step / 2) + density(x));
    grid.push({ x, density: density(x), below });
  }
  return grid;
}

const step = 0.02;
const grid = normalGrid(step, 8);

/** Mean and standard deviation of the range of n standard normal values, integrated from order statistics (Tippett 1925). */
function rangeMoments(n: number): { d2: number; d3: number } {
  let mean = 0;
  for (const { below } of grid) mean += (1 - below ** n - (1 - below) ** n) * step;
  let square = 0;
  for (const [i, low] of grid.entries()) {
    for (const high of grid.slice(i + 1)) {
      square += (high.x - low.x) ** 2 * n * (n - 1) * low.density * high.density * (high.below - low.below) ** (n - 2) * step * step;
    }
  }
  return { d2: mean, d3: Math.sqrt(square - mean * mean) };
}

describe('chart constants', () => {
  it('match the printed anchors (NIST/SEMATECH e-Handbook 6.3.2.1)', () => {
    expect(constantsFor(2)).toMatchObject({ d2: 1.128, A2: 1.88, D4: 3.267, c4: expect.closeTo(0.7979, 4) });
    expect(constantsFor(5)).toMatchObject({ d2: 2.326, A2: 0.577, D4: 2.115, c4: expect.closeTo(0.94, 4) });
  });

  it('match A3, B3 and B4 as printed (ASTM MNL 7) at 2, 5, 6, 10 and 25', () => {
    const printed = {
      2: [2.659, 0, 3.267],
      5: [1.427, 0, 2.089],
      6: [1.287, 0.03, 1.97],
      10: [0.975, 0.284, 1.716],
      25: [0.606, 0.565, 1.435],
    };
    for (const [n, [A3, B3, B4]] of Object.entries(printed)) {
      const row = constantsFor(Number(n));
      expect([row?.A3, row?.B3, row?.B4].map((factor) => factor?.toFixed(3))).toEqual([A3, B3, B4].map((factor) => factor?.toFixed(3)));
    }
  });

  it.each(Array.from({ length: 24 }, (_, i) => i + 2))(
    'agree with integration of the range of %i normal values to the printed place',
    (n) => {
      const row = constantsFor(n);
      const { d2, d3 } = rangeMoments(n);
      expect(Math.abs((row?.d2 ?? 0) - d2)).toBeLessThan(0.00065);
      expect(Math.abs((row?.d3 ?? 0) - d3)).toBeLessThan(0.00065);
      expect(Math.abs((row?.A2 ?? 0) - 3 / (d2 * Math.sqrt(n)))).toBeLessThan(0.00065);
      expect(Math.abs((row?.D4 ?? 0) - (1 + (3 * d3) / d2))).toBeLessThan(0.0015);
      expect(Math.abs((row?.D3 ?? 0) - Math.max(0, 1 - (3 * d3) / d2))).toBeLessThan(0.0015);
    },
  );

  it('have every row from 2 to 25 and none beyond, each consistent within its rounding', () => {
    for (let n = 2; n <= 25; n += 1) {
      const row = constantsFor(n);
      const { d2 = 0, d3 = 0, A2 = 0, D3 = 0, D4 = 0 } = row ?? {};
      expect(Math.abs(A2 - 3 / (d2 * Math.sqrt(n)))).toBeLessThan(0.0015);
      expect(Math.abs(D4 - (1 + (3 * d3) / d2))).toBeLessThan(0.0025);
      expect(Math.abs(D3 - Math.max(0, 1 - (3 * d3) / d2))).toBeLessThan(0.0025);
    }
    expect(constantsFor(1)).toBeUndefined();
    expect(constantsFor(26)).toBeUndefined();
  });

  it('give c4 its closed forms at 2, 3 and 4', () => {
    expect(c4Of(2)).toBeCloseTo(Math.sqrt(2 / Math.PI), 14);
    expect(c4Of(3)).toBeCloseTo(Math.sqrt(Math.PI) / 2, 14);
    expect(c4Of(4)).toBeCloseTo(2 * Math.sqrt(2 / (3 * Math.PI)), 14);
  });
});
