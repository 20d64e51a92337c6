import { describe, expect, it } from '@jest/globals';
import {
  equivalentHold,
  holdMinutes,
  lethality,
  lethalMinutes,
  probeReference,
  saturationKelvin,
  standardPressure,
  zValue,
} from '@bakehouse/sums';

describe('equivalents of 70 °C for 2 min (UK food-safety guidance on Listeria; z = 7.5 °C from memory)', () => {
  it.each([
    [60, 45],
    [70, 2],
    [80, 0.1],
  ])('%p °C for %p min: listed rounded up to friendly numbers', (celsius, listed) => {
    const out = equivalentHold.calculate({ referenceCelsius: 70, referenceMinutes: 2, zCelsius: 7.5, celsius });
    const model = out.ok ? (out.value.minutes ?? NaN) : NaN;
    expect(model).toBeLessThanOrEqual(listed);
    expect(listed).toBeLessThanOrEqual(1.2 * model);
  });
});

describe('US FSIS Appendix A (1999), Salmonella in beef, as 10 °F to a z, anchored at 150 °F', () => {
  const toCelsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8;
  it.each([
    [130, 112 * 60, 67],
    [140, 12 * 60, 67],
    [150, 67, 67],
    [157, 14, 67],
    [130, 121 * 60, 72],
    [140, 12 * 60, 72],
    [150, 72, 72],
    [157, 15, 72],
  ])('%p °F: the table’s %p s beside %p s at 150 °F', (fahrenheit, tableSeconds, anchorSeconds) => {
    const model = holdMinutes(toCelsius(150), anchorSeconds, 10 / 1.8, toCelsius(fahrenheit));
    expect(tableSeconds / model).toBeGreaterThanOrEqual(0.97);
    expect(tableSeconds / model).toBeLessThanOrEqual(1.14);
  });
});

describe('Salmonella in bakery matrices', () => {
  it.each([
    // Channaiah et al., J. Food Prot. 79(4):544 (2016), hamburger bun dough; its authors regressed replicates
    ['bun dough', [28.64, 7.61, 3.14], 6.25, 0.005, 6.58, 0.35],
    // Channaiah et al., Int. J. Food Microbiol. 250:1 (2017), muffin batter
    ['muffin batter', [62.2, 40.1, 16.5], 10.41, 0.005, 10.4, 0.05],
  ])('%s: z from the printed means', (_, minutes, fromMeans, close, published, tolerance) => {
    const points = [55, 58, 61].map((celsius, i) => ({ celsius, dMinutes: minutes[i] ?? NaN }));
    const out = zValue.calculate({ points });
    const z = out.ok ? (out.value.zCelsius ?? NaN) : NaN;
    expect(Math.abs(z - fromMeans)).toBeLessThanOrEqual(close);
    expect(Math.abs(z - published)).toBeLessThanOrEqual(tolerance);
  });

  it('prints no log for a baked bun: the model would say about 192, the paper measured about 5', () => {
    const bake = {
      profile: [
        { minutes: 0, celsius: 30 },
        { minutes: 6, celsius: 82.5 },
      ],
      referenceCelsius: 58,
      zCelsius: 6.58,
    };
    expect(lethalMinutes(bake.profile, 58, 6.58) / 7.61).toBeGreaterThan(100);
    const out = lethality.calculate({ ...bake, dMinutes: 7.61, measuredFromCelsius: 55, measuredToCelsius: 61 });
    expect(out).toMatchObject({
      ok: true,
      value: { logReduction: null, outsideMeasuredRange: true, validRange: expect.stringContaining('55 to 61 °C') },
    });
    const unstated = lethality.calculate({ ...bake, dMinutes: 7.61 });
    expect(unstated).toMatchObject({ ok: true, value: { logReduction: 12, logReductionCapped: true } });
  });

  it('70 °C for 2 min is under one log in muffin batter by extrapolation, and is not stated', () => {
    const out = lethality.calculate({
      profile: [
        { minutes: 0, celsius: 70 },
        { minutes: 2, celsius: 70 },
      ],
      referenceCelsius: 61,
      zCelsius: 10.4,
      dMinutes: 16.5,
      measuredFromCelsius: 55,
      measuredToCelsius: 61,
    });
    expect(out).toMatchObject({ ok: true, value: { logReduction: null } });
    expect(out.ok ? out.value.equivalentMinutes / 16.5 : NaN).toBeLessThan(1);
  });
});

describe('the lethality integral (follows from F = z/(r ln 10) · (10^((T2−Tref)/z) − 10^((T1−Tref)/z)))', () => {
  const ramp = (steps: number) =>
    Array.from({ length: steps + 1 }, (_, i) => ({ minutes: (10 * i) / steps, celsius: 60 + (20 * i) / steps }));

  it('60 to 80 °C at 2 °C/min, Tref 70, z 7.5: 35.011623 min, however many readings', () => {
    for (const steps of [1, 10, 100, 7919]) expect(lethalMinutes(ramp(steps), 70, 7.5)).toBeCloseTo(35.011623, 6);
  });

  it('is below the trapezoids of the same readings, 36.10479 and 35.022623', () => {
    const trapezoid = (steps: number) => {
      const rates = ramp(steps).map((p) => 10 ** ((p.celsius - 70) / 7.5));
      return rates.slice(1).reduce((sum, rate, i) => sum + ((rate + (rates[i] ?? NaN)) / 2) * (10 / steps), 0);
    };
    expect(trapezoid(10)).toBeCloseTo(36.10479, 4);
    expect(trapezoid(100)).toBeCloseTo(35.022623, 5);
    expect(lethalMinutes(ramp(10), 70, 7.5)).toBeLessThan(trapezoid(100));
  });

  it('one minute at 110 °C is 0.0774 min at 121.11 °C with z = 10 °C', () => {
    expect(
      lethalMinutes(
        [
          { minutes: 0, celsius: 110 },
          { minutes: 1, celsius: 110 },
        ],
        121.11,
        10,
      ),
    ).toBeCloseTo(0.0774, 4);
  });

  it('agrees with Gauss-Legendre quadrature of a curve given as many short lines (independent rule, nodes from Abramowitz & Stegun 25.4.30)', () => {
    const curve = (minutes: number) => 25 + 75 * (1 - Math.exp(-minutes / 6));
    const nodes = [-0.906179845938664, -0.5384693101056831, 0, 0.5384693101056831, 0.906179845938664];
    const weights = [0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891];
    let quadrature = 0;
    for (let panel = 0; panel < 60; panel++) {
      nodes.forEach((x, k) => {
        quadrature += ((weights[k] ?? NaN) / 2) * (20 / 60) * 10 ** ((curve(((panel + 0.5 + x / 2) * 20) / 60) - 70) / 7.5);
      });
    }
    const readings = Array.from({ length: 20_001 }, (_, i) => ({ minutes: i / 1000, celsius: curve(i / 1000) }));
    expect(Math.abs(lethalMinutes(readings, 70, 7.5) / quadrature - 1)).toBeLessThan(1e-6);
  });
});

describe('boiling point of water', () => {
  it.each([
    [0.1e6, 372.755919],
    [1e6, 453.035632],
    [10e6, 584.149488],
  ])('IAPWS-IF97 table 36: %p Pa boils at %p K', (pascal, kelvin) => {
    expect(Math.abs(saturationKelvin(pascal) - kelvin)).toBeLessThanOrEqual(5e-7); // half of the last figure printed
    const out = probeReference.calculate({ pressurePascal: pascal });
    expect(out.ok ? out.value.boilingCelsius + 273.15 : NaN).toBeCloseTo(kelvin, 5);
  });

  it('IAPWS-IF97 table 35: 0.00353658941 MPa is the saturation pressure at 300 K', () => {
    expect(saturationKelvin(3536.58941)).toBeCloseTo(300, 5);
  });

  it('agrees with another equation, Wagner and Pruss (1993), over the pressures of inhabited places (coefficients from memory)', () => {
    const a = [
      [1, -7.85951783],
      [1.5, 1.84408259],
      [3, -11.7866497],
      [3.5, 22.6807411],
      [4, -15.9618719],
      [7.5, 1.80122502],
    ] as const;
    const wagnerPascal = (kelvin: number) => {
      const tau = 1 - kelvin / 647.096;
      return 22.064e6 * Math.exp((647.096 / kelvin) * a.reduce((sum, [power, factor]) => sum + factor * tau ** power, 0));
    };
    for (const pascal of [30_000, 60_000, 84_556, 97_500, 101_325, 110_000]) {
      expect(Math.abs(wagnerPascal(saturationKelvin(pascal)) / pascal - 1)).toBeLessThan(2e-4);
    }
  });

  it.each([
    [0, 99.97],
    [300, 98.98],
    [1500, 94.98],
  ])('at %p m of the ICAO standard atmosphere: %p °C', (altitudeMetres, celsius) => {
    const out = probeReference.calculate({ altitudeMetres });
    expect(out.ok ? out.value.boilingCelsius : NaN).toBeCloseTo(celsius, 2);
  });

  it.each([
    [1000, 89_874.6],
    [5000, 54_019.9],
    [-500, 107_478],
  ])('ICAO Doc 7488 at %p m: %p Pa (from memory)', (metres, pascal) => {
    expect(Math.abs(standardPressure(metres) / pascal - 1)).toBeLessThan(1e-4);
  });

  // 98.93 °C is quoted for 975 hPa. IF97, and Wagner and Pruss above, give 98.90: the same 1.07 °C below 99.97 °C, not below the older scale's 100.00 °C.
  it('975 hPa boils at 98.90 °C, also at sea level', () => {
    const out = probeReference.calculate({ pressurePascal: 97_500 });
    expect(out.ok ? out.value.boilingCelsius : NaN).toBeCloseTo(98.9, 2);
  });
});
