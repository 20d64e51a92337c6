import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { boilingPoint, saturationKelvin, standardPressure } from './boiling.js';
import { probeCheck, probeOffset } from './probe-check.js';
import { probeReference } from './probe-reference.js';

const check = (raw: Record<string, unknown>) => {
  const outcome = probeCheck.calculate(raw);
  if (!outcome.ok) throw new Error(`${outcome.field}: ${outcome.acceptable}`);
  return outcome.value;
};

describe('boiling point', () => {
  it('rises with pressure and falls with height', () => {
    fc.assert(
      fc.property(fc.double({ min: 612, max: 22e6, noNaN: true }), fc.double({ min: 1.001, max: 1.5, noNaN: true }), (pascal, more) => {
        fc.pre(pascal * more < 22.064e6);
        expect(saturationKelvin(pascal * more)).toBeGreaterThan(saturationKelvin(pascal));
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: -500, max: 8990, noNaN: true }), (metres) => {
        expect(standardPressure(metres + 10)).toBeLessThan(standardPressure(metres));
      }),
    );
  });

  it('gives no figure outside its ranges', () => {
    expect(saturationKelvin(611)).toBeNaN();
    expect(saturationKelvin(22.065e6)).toBeNaN();
    expect(saturationKelvin(NaN)).toBeNaN();
    expect(standardPressure(9001)).toBeNaN();
  });

  it('takes the pressure where both are known, and nothing from nothing', () => {
    expect(boilingPoint(101_325, 1500)).toMatchObject({ assumed: 'pressure', pascal: 101_325 });
    expect(boilingPoint(undefined, 0)).toMatchObject({ assumed: 'altitude', pascal: 101_325 });
    expect(boilingPoint(undefined, undefined)).toBeNull();
  });
});

describe('probe-reference', () => {
  it('says which was assumed, and what that is worth', () => {
    const high = probeReference.calculate({ altitudeMetres: 300 });
    expect(high).toMatchObject({ ok: true, value: { assumed: 'altitude', iceCelsius: 0 } });
    expect(high.ok ? high.value.cautions.join(' ') : '').toMatch(/Height alone does not decide/);
    const both = probeReference.calculate({ altitudeMetres: 300, pressurePascal: 101_325 });
    expect(both.ok ? both.value.cautions.join(' ') : '').toMatch(/the height was not used/);
  });

  it('marks hectopascals given as pascals', () => {
    const out = probeReference.calculate({ pressurePascal: 1013.25 });
    expect(out.ok ? out.value.cautions.join(' ') : '').toMatch(/Check the unit/);
  });

  it.each([
    ['pressurePascal', {}],
    ['pressurePascal', { pressurePascal: 0 }],
    ['pressurePascal', { pressurePascal: -1 }],
    ['pressurePascal', { pressurePascal: 611.212 }],
    ['pressurePascal', { pressurePascal: 22_064_001 }],
    ['pressurePascal', { pressurePascal: NaN }],
    ['altitudeMetres', { altitudeMetres: 12_000 }],
    ['altitudeMetres', { altitudeMetres: '300' }],
  ])('refuses a bad %s: %p', (field, raw) => {
    expect(probeReference.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/pascal|metres/) });
  });
});

describe('probe-check', () => {
  it('takes one degree either way, and not more', () => {
    const ice = (readCelsius: number) => check({ kind: 'ice', readCelsius, toleranceCelsius: 1 });
    for (const read of [-1, 0, 1]) expect(ice(read)).toMatchObject({ verdict: 'pass', offsetCelsius: read });
    for (const read of [-1.1, 1.1]) expect(ice(read)).toMatchObject({ verdict: 'fail', offsetCelsius: read });
  });

  it('counts in decimals: 100.3 against 100 is 0.3 off, within 0.3', () => {
    expect(100.3 - 100).not.toBe(0.3);
    expect(probeOffset(100.3, 100, 0.3)).toEqual({ offsetCelsius: 0.3, verdict: 'pass' });
  });

  it('passes a perfect probe at every height and pressure', () => {
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 9000 }), (altitudeMetres) => {
        const readCelsius = boilingPoint(undefined, altitudeMetres)?.boilingCelsius;
        expect(check({ kind: 'boiling', readCelsius, toleranceCelsius: 0.01, altitudeMetres })).toMatchObject({
          verdict: 'pass',
          offsetCelsius: 0,
        });
      }),
    );
  });

  it('says that it used the usual tolerance where none was given', () => {
    const out = check({ kind: 'ice', readCelsius: 0.5 });
    expect(out.inputs).toMatchObject({ toleranceCelsius: 1 });
    expect(out.cautions.join(' ')).toMatch(/No tolerance was given/);
  });

  it('sends a failed probe out of use', () => {
    expect(check({ kind: 'ice', readCelsius: 3 }).cautions.join(' ')).toMatch(/out of use/);
  });

  it.each([
    ['pressurePascal', { kind: 'boiling', readCelsius: 99 }],
    ['pressurePascal', { kind: 'boiling', readCelsius: 99, pressurePascal: 1013.25 }],
    ['readCelsius', { kind: 'ice', readCelsius: NaN }],
    ['readCelsius', { kind: 'ice', readCelsius: Infinity }],
    ['toleranceCelsius', { kind: 'ice', readCelsius: 0, toleranceCelsius: -1 }],
    ['kind', { kind: 'oil', readCelsius: 0 }],
  ])('refuses a bad %s', (field, raw) => {
    expect(probeCheck.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/./) });
  });
});
