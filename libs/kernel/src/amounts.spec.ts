import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { amountOf, moreThanNothing, type Observed } from './amounts.js';
import { unitTable } from './unit-table.js';
import { unitsOf, type Unit } from './units.js';

describe('an amount', () => {
  it.each<[Observed | null, number | null, number | null, number | null]>([
    [null, null, null, null],
    [{ figure: '16.4', unit: 'kg' }, null, 16_400_000, null],
    [{ figure: '1', unit: 'lb' }, null, 453_592, null],
    [{ figure: '12', unit: 'piece' }, null, null, 12],
    [{ figure: '1.5', unit: 'dozen' }, null, null, 18],
    [{ figure: '0.5', unit: 'l' }, 920, 460_000, null],
    // Rounded once, at the end: 1.4 µl are 3.36 mg, not 1 µl and so 2.4 mg.
    [{ figure: '0.0014', unit: 'ml' }, 2400, 3, null],
    [{ figure: '0.1', unit: 'l' }, 1035, 103_500, null],
    // 1 US quart is 946,352.946 µl: at 1030 mg a millilitre 974,743.53438 mg.
    [{ figure: '1', unit: 'us-quart' }, 1030, 974_744, null],
    // Half to even, as every canonical amount: 1.5 mg and 2.5 mg.
    [{ figure: '0', unit: 'kg' }, null, 0, null],
    [{ figure: '0.001', unit: 'g' }, null, 1, null],
    [{ figure: '0.0015', unit: 'ml' }, 1000, 2, null],
    [{ figure: '0.0025', unit: 'ml' }, 1000, 2, null],
    // Beyond 2^53 µl times mg a litre, where a double is no longer a whole number.
    [{ figure: '7842531.001001', unit: 'l' }, 1101, 8_634_626_632_102, null],
  ])('%j at %s mg a millilitre is %s mg, %s pieces', (quantity, densityMgPerMl, mg, pieces) => {
    expect(amountOf(quantity, { densityMgPerMl }, 'q')).toEqual({ ok: true, value: { mg, pieces } });
  });

  it.each<[Observed]>([
    [{ figure: '-1', unit: 'g' }],
    [{ figure: '1.5', unit: 'piece' }],
    [{ figure: '1', unit: 'l' }],
    [{ figure: '1', unit: 'degC' }],
    [{ figure: '999999999', unit: 't' }],
    [{ figure: '0.0004', unit: 'g' }],
    [{ figure: '0.0015', unit: 'g' }],
    [{ figure: '0.00001', unit: 'oz' }],
  ])('%j is refused', (quantity) => {
    expect(amountOf(quantity, { densityMgPerMl: null }, 'q')).toMatchObject({ ok: false, problem: 'unacceptable-value', field: 'q' });
  });
});

/** A decimal figure of digits and decimals, such as 12345 and 3: 12.345. */
const decimal = (digits: bigint, decimals: number): string => {
  const text = digits.toString().padStart(decimals + 1, '0');
  return decimals === 0 ? text : `${text.slice(0, -decimals)}.${text.slice(-decimals)}`;
};
/** The quotient rounded half to even, in whole numbers alone. */
function divided(above: bigint, below: bigint): bigint {
  const [whole, twice] = [above / below, (above % below) * 2n];
  return twice > below || (twice === below && whole % 2n === 1n) ? whole + 1n : whole;
}

describe('an amount that is finer than a milligram', () => {
  it('is refused with what to do, and so is nothing where something is asked for', () => {
    const refused = (figure: string, unit: Unit, densityMgPerMl: number | null = null) => {
      const read = amountOf({ figure, unit }, { densityMgPerMl }, 'q');
      return read.ok ? read.value : read.acceptable;
    };
    expect(refused('0.0004', 'g')).toBe('whole milligrams, so at most three decimals of a gram or six of a kilogram');
    expect(refused('0.00001', 'oz')).toBe('nothing, or a milligram or more');
    expect(refused('0.0004', 'ml', 1000)).toBe('nothing, or a milligram or more');
    expect(moreThanNothing(amountOf({ figure: '0.0', unit: 'kg' }, { densityMgPerMl: null }, 'q'), 'q')).toMatchObject({
      ok: false,
      problem: 'unacceptable-value',
      field: 'q',
    });
    expect(moreThanNothing(amountOf({ figure: '0', unit: 'piece' }, { densityMgPerMl: null }, 'q'), 'q').ok).toBe(false);
    for (const some of [{ figure: '1', unit: 'mg' } as const, { figure: '1', unit: 'piece' } as const, null])
      expect(moreThanNothing(amountOf(some, { densityMgPerMl: null }, 'q'), 'q').ok).toBe(true);
  });
});

describe('a volume of known density', () => {
  it('weighs what whole numbers alone make of it, whatever figure, unit and density', () => {
    const aVolume = fc.constantFrom<Unit>(...unitsOf('volume'));
    const density = fc.integer({ min: 100, max: 2500 });
    fc.assert(
      fc.property(fc.bigInt(0n, 999_999_999n), fc.nat(9), aVolume, density, (digits, decimals, unit, densityMgPerMl) => {
        const [whole = '', part = ''] = unitTable[unit].num.split('.');
        const above = digits * BigInt(whole + part) * BigInt(densityMgPerMl);
        const mg = divided(above, 1000n * 10n ** BigInt(decimals + part.length));
        const refused = (acceptable: string) => ({ ok: false, problem: 'unacceptable-value', field: 'q', acceptable });
        expect(amountOf({ figure: decimal(digits, decimals), unit }, { densityMgPerMl }, 'q')).toEqual(
          mg > BigInt(Number.MAX_SAFE_INTEGER)
            ? refused('a smaller amount: this is more than a bakehouse can hold')
            : mg === 0n && digits > 0n
              ? refused('nothing, or a milligram or more')
              : { ok: true, value: { mg: Number(mg), pieces: null } },
        );
      }),
      { numRuns: 2000, seed: 1 },
    );
  });

  it('is refused with what to do where the density is not known', () => {
    expect(amountOf({ figure: '1', unit: 'l' }, { densityMgPerMl: null }, 'q')).toMatchObject({
      ok: false,
      acceptable: 'a weight; a volume once the specification of this material gives its density',
    });
  });
});
