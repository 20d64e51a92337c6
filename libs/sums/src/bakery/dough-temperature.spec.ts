import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { frictionFactor } from './friction-factor.js';
import { waterTemperature } from './water-temperature.js';

const water = (body: unknown) => {
  const out = waterTemperature.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const friction = (body: unknown) => {
  const out = frictionFactor.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const basic = { wanted: 24, factors: { flour: 20, room: 22, friction: 12 }, unit: 'degC', terms: 3 };
const figure = fc.integer({ min: -100, max: 400 }).map((tenths) => tenths / 10);

describe('water-temperature and friction-factor', () => {
  it('gives both units, and the factor as a difference', () => {
    expect(water(basic)).toMatchObject({
      waterCelsius: 18,
      waterFahrenheit: 64.4,
      frictionCelsius: 12,
      frictionFahrenheit: 21.6,
      reachable: true,
      reason: null,
    });
    expect(water({ ...basic, factors: { ...basic.factors, preferment: 25 }, terms: 4 })).toMatchObject({ waterCelsius: 17, terms: 4 });
    expect(water({ wanted: 24, factors: { ...basic.factors, preferment: 25 }, unit: 'C' })).toMatchObject({ waterCelsius: 17, terms: 4 });
  });

  it('never mixes sums of three and of four terms', () => {
    expect(water({ ...basic, terms: 4 })).toMatch(/^factors.preferment: the temperature/);
    expect(water({ ...basic, factors: { ...basic.factors, preferment: 25 } })).toMatch(/^factors.preferment: nothing with terms 3/);
    expect(water({ ...basic, frictionTerms: 4 })).toMatch(/^frictionTerms: 3/);
    expect(friction({ actual: 24, factors: { flour: 20, room: 22, water: 18 }, unit: 'degC', terms: 4 })).toMatch(/^factors.preferment: /);
    expect(water({ ...basic, terms: 5 })).toMatch(/^terms: 3, or 4/);
  });

  it('says where no water has the temperature, and where it is too warm for yeast', () => {
    expect(water({ ...basic, factors: { flour: 35, room: 35, friction: 10 } })).toMatchObject({
      waterCelsius: -8,
      reachable: false,
      reason: expect.stringContaining('ice'),
    });
    expect(water({ ...basic, factors: { flour: 24, room: 24, friction: 24 } })).toMatchObject({ waterCelsius: 0, reachable: true });
    expect(water({ ...basic, factors: { flour: 0, room: 10, friction: 8 } })).toMatchObject({
      waterCelsius: 54,
      cautions: expect.arrayContaining([expect.stringContaining('yeast')]),
    });
  });

  it('is undone by the factor found from its own water, in either unit and with either count', () => {
    fc.assert(
      fc.property(
        figure,
        figure,
        figure,
        figure,
        fc.option(figure),
        fc.constantFrom('degC', 'degF'),
        (wanted, flour, room, rub, preferment, unit) => {
          const extra = preferment === null ? {} : { preferment };
          const found = water({ wanted, factors: { flour, room, friction: rub, ...extra }, unit });
          if (typeof found === 'string') throw new Error(found);
          const asked = unit === 'degC' ? found.waterCelsius : found.waterFahrenheit;
          if (asked < -40 || asked > (unit === 'degC' ? 100 : 212)) return;
          expect(friction({ actual: wanted, factors: { flour, room, water: asked, ...extra }, unit })).toMatchObject(
            unit === 'degC' ? { frictionCelsius: expect.closeTo(rub, 5) } : { frictionFahrenheit: expect.closeTo(rub, 5) },
          );
        },
      ),
    );
  });

  it('warns of a factor below zero', () => {
    expect(friction({ actual: 20, factors: { flour: 22, room: 22, water: 22 }, unit: 'degC' })).toMatchObject({
      frictionCelsius: -6,
      frictionFahrenheit: -10.8,
      cautions: expect.arrayContaining([expect.stringContaining('below 0')]),
    });
  });

  it('refuses figures that are no dough temperatures, such as Fahrenheit sent as Celsius', () => {
    for (const bad of [NaN, Infinity, -Infinity, '24', null]) expect(water({ ...basic, wanted: bad })).toMatch(/^wanted: /);
    expect(water({ ...basic, factors: { flour: 168, room: 22, friction: 12 } })).toMatch(
      /^factors.flour: a temperature from -40 to 100 degC/,
    );
    expect(water({ ...basic, unit: 'K' })).toMatch(/^unit: degC or degF/);
    expect(friction({ actual: 24, factors: { flour: 20, room: 22 }, unit: 'degC' })).toMatch(/^factors.water: /);
    expect(water({ ...basic, factors: { ...basic.factors, water: 12 } })).toMatch(/^factors.water: /);
  });
});
