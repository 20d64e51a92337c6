import { describe, expect, it } from '@jest/globals';
import { amountOf, type Observed } from './amounts.js';

describe('an amount', () => {
  it.each<[Observed | null, number | null, number | null, number | null]>([
    [null, null, null, null],
    [{ figure: '16.4', unit: 'kg' }, null, 16_400_000, null],
    [{ figure: '1', unit: 'lb' }, null, 453_592, null],
    [{ figure: '12', unit: 'piece' }, null, null, 12],
    [{ figure: '1.5', unit: 'dozen' }, null, null, 18],
    [{ figure: '0.5', unit: 'l' }, 920, 460_000, null],
  ])('%j at %s mg a millilitre is %s mg, %s pieces', (quantity, densityMgPerMl, mg, pieces) => {
    expect(amountOf(quantity, { densityMgPerMl }, 'q')).toEqual({ ok: true, value: { mg, pieces } });
  });

  it.each<[Observed]>([
    [{ figure: '-1', unit: 'g' }],
    [{ figure: '1.5', unit: 'piece' }],
    [{ figure: '1', unit: 'l' }],
    [{ figure: '1', unit: 'degC' }],
    [{ figure: '999999999', unit: 't' }],
  ])('%j is refused', (quantity) => {
    expect(amountOf(quantity, { densityMgPerMl: null }, 'q')).toMatchObject({ ok: false, problem: 'unacceptable-value', field: 'q' });
  });
});
