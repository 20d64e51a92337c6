import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { inSteps, scaleSteps, type WeighedIn } from './in-steps.js';

const lines = (...mg: number[]) => ({
  lines: mg.map((one, i) => ({ material: String(i), name: '', mg: one, flour: i === 0, madeBy: null })),
});
const white = lines(1_000_000, 600_000, 2_000, 10_000);

describe('inSteps', () => {
  it.each<[WeighedIn, string, string, string[]]>([
    // by hand: 1612 g is divided by 1000 : 600 : 2 : 10
    ['g', '1', '1612', ['1000', '600', '2', '10']],
    // 1 oz is 28.349523125 g, NIST SP 811: 1612 g is 56.861… oz
    ['oz', '0.1', '56.9', ['35.3', '21.2', '0.1', '0.3']],
  ])('in %s to %s', (unit, step, total, each) => {
    expect(inSteps(white, 1_612_000, unit, step)).toEqual({ total, lines: each, vanished: false });
  });

  it('says where a line came to nothing', () => {
    expect(inSteps(white, 100_000, 'g', '5')).toMatchObject({ total: '100', vanished: true });
  });

  it('sums exactly, whatever is asked', () => {
    const asked = fc.constantFrom(...(['g', 'oz'] as const).flatMap((unit) => scaleSteps[unit].map((step) => ({ unit, step }))));
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 50_000_000 }), { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 1, max: 10 ** 9 }),
        asked,
        (mgs, mg, { unit, step }) => {
          const { total, lines: each } = inSteps(lines(...mgs), mg, unit, step);
          const units = (figure: string): number => Math.round(Number(figure) / Number(step));
          expect(each.reduce((sum, figure) => sum + units(figure), 0)).toBe(units(total));
        },
      ),
    );
  });
});
