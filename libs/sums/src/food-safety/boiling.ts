/** Range of the IAPWS-IF97 region 4 backward equation, in pascal: triple point to critical point. */
export const saturationRange = { min: 611.213, max: 22_064_000 } as const;
/** Heights for which the ICAO atmosphere is used here, in metres: every place with people, well inside the troposphere. */
export const altitudeRange = { min: -500, max: 9_000 } as const;

const n = {
  1: 0.11670521452767e4,
  2: -0.72421316703206e6,
  3: -0.17073846940092e2,
  4: 0.1202082470247e5,
  5: -0.32325550322333e7,
  6: 0.1491510861353e2,
  7: -0.48232657361591e4,
  8: 0.40511340542057e6,
  9: -0.23855557567849,
  10: 0.65017534844798e3,
} as const;

/**
 * Temperature in K at which water boils at `pascal`, IAPWS-IF97 equation 31 (region 4, backward). NaN outside its range,
 * 611.213 Pa to 22.064 MPa.
 */
export function saturationKelvin(pascal: number): number {
  if (!(pascal >= saturationRange.min && pascal <= saturationRange.max)) return NaN;
  const beta = (pascal / 1e6) ** 0.25;
  const e = beta * beta + n[3] * beta + n[6];
  const f = n[1] * beta * beta + n[4] * beta + n[7];
  const g = n[2] * beta * beta + n[5] * beta + n[8];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (n[10] + d - Math.sqrt((n[10] + d) ** 2 - 4 * (n[9] + n[10] * d))) / 2;
}

/** Pressure in pascal of the ICAO standard atmosphere at a height in metres (troposphere). NaN outside −500 to 9000 m. */
export function standardPressure(altitudeMetres: number): number {
  if (!(altitudeMetres >= altitudeRange.min && altitudeMetres <= altitudeRange.max)) return NaN;
  return 101_325 * (1 - 2.25577e-5 * altitudeMetres) ** 5.25588;
}

export interface BoilingPoint {
  readonly boilingCelsius: number;
  readonly pascal: number;
  readonly assumed: 'pressure' | 'altitude';
}

/** Boiling point in °C from the pressure where it is known, else from the height; null where neither is given. */
export function boilingPoint(pressurePascal: number | undefined, altitudeMetres: number | undefined): BoilingPoint | null {
  const pascal = pressurePascal ?? (altitudeMetres === undefined ? undefined : standardPressure(altitudeMetres));
  if (pascal === undefined) return null;
  return { boilingCelsius: saturationKelvin(pascal) - 273.15, pascal, assumed: pressurePascal === undefined ? 'altitude' : 'pressure' };
}

/** Air pressure that a place with people can have, in pascal. */
export const airPressure = { min: 30_000, max: 110_000 } as const;

export const pressureOrHeight = 'the air pressure at the place in pascal, or altitudeMetres in its place';
export const boilingSource = 'IAPWS-IF97 region 4, equation 31; pressure from height by the ICAO standard atmosphere';

/** What to say about where the pressure came from. */
export function pressureCautions(point: BoilingPoint, altitudeMetres: number | undefined): string[] {
  const byHeight = point.assumed === 'altitude';
  const strange = point.pascal < airPressure.min || point.pascal > airPressure.max;
  return [
    ...(byHeight
      ? ['Height alone does not decide: weather moves the boiling point by up to about 1 °C. Use the measured air pressure, or ice.']
      : []),
    ...(byHeight ? [] : ['Use the pressure at the place itself: weather reports give it reduced to sea level.']),
    ...(!byHeight && altitudeMetres !== undefined ? ['Both were given: the pressure decides, the height was not used.'] : []),
    ...(strange ? ['This is not an air pressure of any inhabited place: 1013.25 hPa is 101325 Pa. Check the unit.'] : []),
    'Pure water, boiling in the open: salt or a lid raises the temperature.',
  ];
}
