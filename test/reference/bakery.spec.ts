import { describe, expect, it } from '@jest/globals';
import { type Unit } from '@bakehouse/kernel';
import { bakeLoss, convert, frictionFactor, ice, scaleFormula, totalFormula, waterTemperature } from '@bakehouse/sums';
import fc from 'fast-check';
import Qty from 'js-quantities';

function answered<T>(outcome: { ok: true; value: T } | { ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}
const converted = (value: number | string, from: string, to: string, difference = false) =>
  answered(convert.calculate({ value, from, to, difference }));

describe('exact factors (NIST SP 811 app. B; NIST Handbook 44 app. C)', () => {
  it.each([
    ['1', 'lb', 'g', '453.59237'],
    ['1', 'oz', 'g', '28.349523125'],
    ['1', 'uk-gal', 'l', '4.54609'],
    ['1', 'us-gal', 'l', '3.785411784'],
    ['16', 'oz', 'lb', '1'],
    ['1', 'us-fl-oz', 'ml', '29.5735295625'],
    ['1', 'uk-fl-oz', 'ml', '28.4130625'],
    ['1', 'ft', 'm', '0.3048'],
    ['1', 'atm', 'Pa', '101325'],
    ['212', 'degF', 'degC', '100'],
    ['-40', 'degC', 'degF', '-40'],
    ['25', 'degC', 'K', '298.15'],
  ])('%s %s is exactly %s: %s', (value, from, to, exact) => {
    expect(converted(value, from, to).exact).toBe(exact);
  });

  it('agrees with an independent units library (js-quantities) on what both know, to its own precision', () => {
    const theirs: Partial<Record<Unit, string>> = {
      mg: 'mg',
      g: 'g',
      kg: 'kg',
      oz: 'oz',
      lb: 'lb',
      ml: 'ml',
      l: 'l',
      'us-gal': 'gal',
      'us-cup': 'cup',
      'us-fl-oz': 'floz',
      degC: 'tempC',
      degF: 'tempF',
      K: 'tempK',
      s: 's',
      min: 'min',
      h: 'h',
      d: 'd',
      mm: 'mm',
      cm: 'cm',
      m: 'm',
      in: 'in',
      ft: 'ft',
      Pa: 'Pa',
      kPa: 'kPa',
      bar: 'bar',
      atm: 'atm',
    };
    const known = Object.entries(theirs);
    const pairs = known.flatMap((from) =>
      known.filter((to) => Qty(1, from[1]).isCompatible(Qty(1, to[1]))).map((to) => [from, to] as const),
    );
    expect(pairs.length).toBeGreaterThan(100);
    for (const [[from, theirFrom], [to, theirTo]] of pairs) {
      for (const value of [0.5, 37.25, 1200]) {
        const reference = Qty(value, theirFrom).to(theirTo).scalar;
        const ours = answered(convert.calculate({ value, from, to, places: 12 })).rounded;
        expect(`${from} ${to} ${Math.abs(ours - reference) <= Math.abs(reference) * 2e-6 + 1e-9}`).toBe(`${from} ${to} true`);
      }
    }
  });
});

describe('baker’s percentages (common practice, no source)', () => {
  const lean = [
    { name: 'flour', grams: 1000, flour: true },
    { name: 'water', grams: 600, flour: false },
    { name: 'yeast', grams: 2, flour: false },
    { name: 'salt', grams: 10, flour: false },
  ];

  it('1000 flour, 600 water, 2 yeast, 10 salt is 100/60/0.2/1 %', () => {
    expect(answered(scaleFormula.calculate({ ingredients: lean, doughGrams: 1612 })).lines.map((l) => l.bakersPercent)).toEqual([
      100, 60, 0.2, 1,
    ]);
  });

  it('counts the flour of a preferment in the total formula', () => {
    const poolish = {
      name: 'poolish',
      grams: 400,
      flour: false,
      preferment: [
        { name: 'flour', grams: 200, flour: true },
        { name: 'water', grams: 200, flour: false },
      ],
    };
    const rest = [
      { name: 'flour', grams: 800, flour: true },
      { name: 'water', grams: 400, flour: false },
      { name: 'yeast', grams: 2, flour: false },
      { name: 'salt', grams: 10, flour: false },
    ];
    expect(answered(totalFormula.calculate({ ingredients: [poolish, ...rest] }))).toMatchObject({
      prefermentedFlourPercent: 20,
      lines: [{ grams: 1000, bakersPercent: 100 }, { grams: 600, bakersPercent: 60 }, { bakersPercent: 0.2 }, { bakersPercent: 1 }],
    });
  });

  it('400 g at 12 % needs 454.55 g of dough', () => {
    expect(answered(bakeLoss.calculate({ bakedGrams: 400, percent: 12 })).doughGrams).toBeCloseTo(454.55, 2);
  });
});

describe('dough temperature (trade press, as printed)', () => {
  it.each([
    [80, 65, 75, 35, 65],
    [75, 65, 65, 8, 87],
  ])('wanted %i °F with %i, %i and friction %i: water %i °F', (wanted, flour, room, friction, water) => {
    const out = answered(waterTemperature.calculate({ wanted, factors: { flour, room, friction }, unit: 'degF', terms: 3 }));
    expect(out.waterFahrenheit).toBe(water);
    expect(
      answered(frictionFactor.calculate({ actual: wanted, factors: { flour, room, water }, unit: 'degF', terms: 3 })).frictionFahrenheit,
    ).toBe(friction);
  });

  it('35 °F of friction is 19.44 °C, as a difference; js-quantities agrees', () => {
    const out = answered(frictionFactor.calculate({ actual: 80, factors: { flour: 65, room: 75, water: 65 }, unit: 'degF' }));
    expect(out.frictionCelsius).toBeCloseTo(19.44, 2);
    expect(out.frictionCelsius).toBeCloseTo(Qty(35, 'degF').to('degC').scalar, 5);
  });
});

describe('ice (heat balance with 144 BTU/lb, which is 80 °C of water)', () => {
  it('100 lb from 70 to 40 °F: 16.484 lb of ice and 83.516 lb of water, the same in either unit', () => {
    const [tap, wanted] = [Qty(70, 'tempF').to('tempC').scalar, Qty(40, 'tempF').to('tempC').scalar];
    const out = answered(ice.calculate({ waterKilograms: 100, tapCelsius: tap, wantedCelsius: wanted, way: 'replacing' }));
    expect(out.iceKilograms).toBeCloseTo(16.484, 3);
    expect(out.waterKilograms).toBeCloseTo(83.516, 3);
    expect(out.iceKilograms).toBeCloseTo((100 * (70 - 40)) / (70 + 112), 5); // the formula as printed in °F
  });

  it.each([
    ['replacing', 4],
    ['adding', 4.444],
  ])('40 kg from 20 to 10 °C, %s: %f kg', (way, kilograms) => {
    expect(answered(ice.calculate({ waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, way })).iceKilograms).toBeCloseTo(kilograms, 3);
  });

  it('takes the latent heat within 0.5 % of 333.55 kJ/kg, and ice to warm with half of water’s heat as IAPWS R10-06 gives at 0 °C (2.0967 kJ/(kg K); both from memory)', () => {
    const out = answered(ice.calculate({ waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, iceCelsius: -10, way: 'adding' }));
    const kilograms = out.iceKilograms ?? NaN;
    expect(Math.abs((out.heatBalance?.iceMeltingKilojoules ?? NaN) / kilograms / 333.55 - 1)).toBeLessThan(0.005);
    expect(Math.abs((out.heatBalance?.iceWarmingKilojoules ?? NaN) / kilograms / 10 / 2.0967 - 1)).toBeLessThan(0.005);
  });

  it('mixes to the wanted temperature by a balance of enthalpies written anew', () => {
    const c = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(c, c, fc.constantFrom('replacing', 'adding'), (a, b, way) => {
        const [tap, wanted] = [Math.max(a, b) + 1, Math.min(a, b)];
        const out = answered(ice.calculate({ waterKilograms: 10, tapCelsius: tap, wantedCelsius: wanted, way }));
        const [frozen, liquid] = [out.iceKilograms ?? NaN, out.waterKilograms ?? NaN];
        expect((liquid * tap - frozen * 80) / (liquid + frozen)).toBeCloseTo(wanted, 4);
      }),
    );
  });
});
