import { describe, expect, it } from '@jest/globals';
import { verdictOf } from '@bakehouse/records';
import fc from 'fast-check';
import { pointLeftOut } from './point-left-out';

const cannotBe = (figure: string, measured: 'core' | 'air'): boolean =>
  verdictOf({ value: { figure, unit: 'degC' }, yes: null, measured }, null, 0) === 'not-believable';

describe('a point that was left out', () => {
  it.each([
    ['940', 'core', '94.0'],
    ['1002', 'core', '100.2'],
    ['-180', 'air', '-18.0'],
    ['126', 'liquid', '12.6'],
  ] as const)('%s as %s may be %s', (figure, measured, meant) => {
    expect(pointLeftOut(figure, 'degC', measured)).toBe(meant);
  });

  it.each([
    ['94', 'core'],
    ['300', 'air'], // an oven's mouth is as hot as that
    ['940.0', 'core'],
    ['9400', 'core'], // nor can its tenth be
    ['9', 'core'],
    ['', 'core'],
  ] as const)('%s as %s means what it says', (figure, measured) => {
    expect(pointLeftOut(figure, 'degC', measured)).toBeUndefined();
  });

  it('is asked for temperatures alone', () => {
    expect(pointLeftOut('940', 'g', 'mass')).toBeUndefined();
    expect(pointLeftOut('940', 'min', 'elapsed')).toBeUndefined();
  });

  it('is offered only where the figure cannot be right and its tenth can, and is that tenth', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 99_999 }), fc.constantFrom('core' as const, 'air' as const), (n, measured) => {
        const meant = pointLeftOut(String(n), 'degC', measured);
        if (meant === undefined) return;
        expect(Number(meant)).toBeCloseTo(n / 10, 9);
        expect([cannotBe(String(n), measured), cannotBe(meant, measured)]).toEqual([true, false]);
      }),
    );
  });
});
