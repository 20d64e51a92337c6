import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { ice } from './ice.js';

const asked = (body: unknown) => {
  const out = ice.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const basic = { waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, way: 'replacing' };

describe('ice', () => {
  it('tells replacing from adding', () => {
    expect(asked(basic)).toMatchObject({
      iceKilograms: 4,
      waterKilograms: 36,
      explanation: expect.stringContaining('replaces part of the water'),
      inputs: { iceCelsius: 0 },
    });
    expect(asked({ ...basic, way: 'adding' })).toMatchObject({
      iceKilograms: 4.444444,
      waterKilograms: 40,
      explanation: expect.stringContaining('added to all of the water'),
    });
  });

  it('needs less of colder ice', () => {
    const cold = asked({ ...basic, iceCelsius: -18 });
    expect(cold).toMatchObject({ iceKilograms: expect.closeTo((40 * 10) / (20 + 80 + 9), 6) });
  });

  it('needs none where the water is already as cold, and says why', () => {
    for (const wantedCelsius of [20, 25]) {
      expect(asked({ ...basic, wantedCelsius })).toMatchObject({
        iceKilograms: 0,
        waterKilograms: 40,
        reason: expect.stringContaining('No ice'),
        heatBalance: { waterGivesKilojoules: 0 },
      });
    }
  });

  it('says that ice water is never below 0 °C, and what it can do', () => {
    expect(asked({ ...basic, wantedCelsius: -0.1 })).toMatchObject({
      iceKilograms: null,
      waterKilograms: null,
      heatBalance: null,
      reason: expect.stringContaining('8 kg of ice, replacing water, brings it to 0 °C'),
    });
    expect(asked({ ...basic, wantedCelsius: 0 })).toMatchObject({ iceKilograms: 8, waterKilograms: 32 });
  });

  it('closes the heat balance and keeps the mass, and needs more ice for colder water', () => {
    const half = (from: number, to: number) => fc.integer({ min: from * 2, max: to * 2 }).map((n) => n / 2);
    fc.assert(
      fc.property(
        half(1, 500),
        half(1, 60),
        half(0, 59),
        half(-40, 0),
        fc.constantFrom('replacing', 'adding'),
        (waterKilograms, tapCelsius, wantedCelsius, iceCelsius, way) => {
          if (wantedCelsius >= tapCelsius) return;
          const out = asked({ waterKilograms, tapCelsius, wantedCelsius, iceCelsius, way });
          if (typeof out === 'string' || out.iceKilograms === null || out.waterKilograms === null) throw new Error('refused');
          expect(Math.abs(out.heatBalance?.differenceKilojoules ?? NaN)).toBeLessThan(0.001);
          if (way === 'replacing') expect(Math.round((out.iceKilograms + out.waterKilograms) * 1e6)).toBe(Math.round(waterKilograms * 1e6));
          const colder = asked({ waterKilograms, tapCelsius, wantedCelsius: Math.max(0, wantedCelsius - 1), iceCelsius, way });
          expect(typeof colder === 'string' ? NaN : colder.iceKilograms).toBeGreaterThanOrEqual(out.iceKilograms);
        },
      ),
    );
  });

  it('refuses warm ice, no water and figures that are none', () => {
    expect(asked({ ...basic, iceCelsius: 1 })).toMatch(/^iceCelsius: .*from -60 to 0/);
    for (const bad of [0, -1, NaN, Infinity]) expect(asked({ ...basic, waterKilograms: bad })).toMatch(/^waterKilograms: .*above 0/);
    expect(asked({ ...basic, tapCelsius: 170 })).toMatch(/^tapCelsius: /);
    expect(asked({ ...basic, way: 'instead' })).toMatch(/^way: replacing/);
  });
});
