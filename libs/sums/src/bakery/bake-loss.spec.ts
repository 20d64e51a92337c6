import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { bakeLoss } from './bake-loss.js';

const asked = (body: unknown) => {
  const out = bakeLoss.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};

describe('bake-loss', () => {
  it('finds the third of three', () => {
    expect(asked({ bakedGrams: 400, percent: 12 })).toMatchObject({ doughGrams: 454.545, bakedGrams: 400, percent: 12, lossGrams: 54.545 });
    expect(asked({ doughGrams: 940, percent: 14 })).toMatchObject({ bakedGrams: 808.4 });
    expect(asked({ doughGrams: 910, bakedGrams: 805.35 })).toMatchObject({ percent: 11.5, lossGrams: 104.65 });
    expect(asked({ doughGrams: 500, bakedGrams: 500 })).toMatchObject({ percent: 0 });
  });

  it('comes back to the loss it started from', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1000, max: 100_000 }), fc.integer({ min: 0, max: 900 }), (bakedGrams, tenths) => {
        const first = asked({ bakedGrams, percent: tenths / 10 });
        if (typeof first === 'string') throw new Error(first);
        expect(asked({ doughGrams: first.doughGrams, bakedGrams })).toMatchObject({ percent: expect.closeTo(tenths / 10, 3) });
      }),
    );
  });

  it('refuses one, all three, a loss of everything, and a gain', () => {
    expect(asked({})).toMatch(/^doughGrams: exactly two/);
    expect(asked({ doughGrams: 500 })).toMatch(/^bakedGrams: exactly two/);
    expect(asked({ doughGrams: 500, bakedGrams: 440, percent: 12 })).toMatch(/^percent: exactly two/);
    for (const percent of [100, 120, -1, NaN, '12']) expect(asked({ doughGrams: 500, percent })).toMatch(/^percent: .*less than 100/);
    expect(asked({ doughGrams: 500, bakedGrams: 501 })).toMatch(/^bakedGrams: at most doughGrams/);
    for (const doughGrams of [0, -5, Infinity]) expect(asked({ doughGrams, percent: 12 })).toMatch(/^doughGrams: .*above 0/);
  });
});
