import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { capability } from './capability.js';

describe('capability', () => {
  it('takes mean and sigma, and does not know whether the process is in control', () => {
    expect(capability.calculate({ mean: 16, sigma: 2, lsl: 8, usl: 20 })).toMatchObject({
      ok: true,
      value: {
        cp: 1,
        cpk: expect.closeTo(2 / 3, 12),
        cpl: expect.closeTo(4 / 3, 12),
        cpu: expect.closeTo(2 / 3, 12),
        inControl: null,
        warning: expect.stringContaining('not known'),
      },
    });
  });

  it('takes values, and warns when a chart of them signals', () => {
    const calm = Array.from({ length: 60 }, (_, i) => [10, 11, 9, 10, 12, 10, 8][i % 7] ?? 0);
    expect(capability.calculate({ values: calm, lsl: 0, usl: 20 })).toMatchObject({ ok: true, value: { inControl: true, warning: null } });
    expect(capability.calculate({ values: [...calm, 19], lsl: 0, usl: 20 })).toMatchObject({
      ok: true,
      value: { inControl: false, warning: expect.stringContaining('not in control') },
    });
  });

  it('gives a one-sided index alone and no Cp with a single limit', () => {
    expect(capability.calculate({ mean: 10, sigma: 1, lsl: 7 })).toMatchObject({
      ok: true,
      value: { cp: null, cpu: null, cpl: 1, cpk: 1 },
    });
    expect(capability.calculate({ mean: 10, sigma: 1, usl: 16 })).toMatchObject({
      ok: true,
      value: { cp: null, cpl: null, cpu: 2, cpk: 2 },
    });
  });

  it('has Cpk at most Cp, equal in the middle, and is free of shift and scale', () => {
    const upTo = (max: number) => fc.integer({ min: 1, max });
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), upTo(20), upTo(100), fc.constantFrom(0.5, 2, 16), (mean, sigma, width, scale) => {
        const plain = capability.calculate({ mean, sigma, lsl: -width, usl: width });
        const moved = capability.calculate({
          mean: mean * scale + 7,
          sigma: sigma * scale,
          lsl: -width * scale + 7,
          usl: width * scale + 7,
        });
        const middle = capability.calculate({ mean: 0, sigma, lsl: -width, usl: width });
        if (!plain.ok || !moved.ok || !middle.ok) throw new Error('all are answered');
        expect(plain.value.cpk).toBeLessThanOrEqual((plain.value.cp ?? 0) + 1e-12);
        expect(middle.value.cpk).toBeCloseTo(middle.value.cp ?? 0, 12);
        expect(moved.value.cpk).toBeCloseTo(plain.value.cpk, 9);
      }),
    );
  });

  it.each([
    [{ mean: 1, sigma: 1 }, 'lsl'],
    [{ mean: 1, sigma: 1, lsl: 5, usl: 5 }, 'usl'],
    [{ mean: 1, sigma: 1, lsl: 6, usl: 5 }, 'usl'],
    [{ mean: 1, sigma: 0, lsl: 0, usl: 5 }, 'sigma'],
    [{ mean: 1, lsl: 0, usl: 5 }, 'sigma'],
    [{ sigma: 1, lsl: 0, usl: 5 }, 'mean'],
    [{ lsl: 0, usl: 5 }, 'values'],
    [{ values: [1, 2], mean: 1, lsl: 0, usl: 5 }, 'mean'],
    [{ values: [1, 2], sigma: 1, lsl: 0, usl: 5 }, 'sigma'],
    [{ values: [3], lsl: 0, usl: 5 }, 'values'],
    [{ values: [3, 3], lsl: 0, usl: 5 }, 'values'],
    [{ values: [3, Number.NaN], lsl: 0, usl: 5 }, 'values.1'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(capability.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });
});
