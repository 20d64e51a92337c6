/** A unit of measure: canonical value = (figure + offset) × num ÷ den, all exact decimals. Only temperature has an offset. */
export interface UnitDefinition {
  readonly dimension: 'mass' | 'volume' | 'temperature' | 'time' | 'length' | 'pressure' | 'count' | 'ratio' | 'acidity' | 'water-activity';
  readonly num: string;
  readonly den?: string;
  readonly offset?: string;
}

/**
 * Factors to the canonical unit of each dimension: mg, µl, thousandths of a degree C, ms, µm, Pa, thousandths of a piece, of a percent,
 * of a pH and of a water activity. The inch-pound units are exact by definition: NIST SP 811 (2008) app. B, NIST HB 44 app. C, and the
 * UK Units of Measurement Regulations 1995.
 */
export const unitTable = {
  mg: { dimension: 'mass', num: '1' },
  g: { dimension: 'mass', num: '1000' },
  kg: { dimension: 'mass', num: '1000000' },
  t: { dimension: 'mass', num: '1000000000' },
  oz: { dimension: 'mass', num: '28349.523125' },
  lb: { dimension: 'mass', num: '453592.37' },

  ul: { dimension: 'volume', num: '1' },
  ml: { dimension: 'volume', num: '1000' },
  cl: { dimension: 'volume', num: '10000' },
  dl: { dimension: 'volume', num: '100000' },
  l: { dimension: 'volume', num: '1000000' },
  'uk-fl-oz': { dimension: 'volume', num: '28413.0625' },
  'uk-pint': { dimension: 'volume', num: '568261.25' },
  'uk-gal': { dimension: 'volume', num: '4546090' },
  'us-fl-oz': { dimension: 'volume', num: '29573.5295625' },
  'us-cup': { dimension: 'volume', num: '236588.2365' },
  'us-pint': { dimension: 'volume', num: '473176.473' },
  'us-quart': { dimension: 'volume', num: '946352.946' },
  'us-gal': { dimension: 'volume', num: '3785411.784' },

  degC: { dimension: 'temperature', num: '1000' },
  degF: { dimension: 'temperature', num: '5000', den: '9', offset: '-32' },
  K: { dimension: 'temperature', num: '1000', offset: '-273.15' },

  ms: { dimension: 'time', num: '1' },
  s: { dimension: 'time', num: '1000' },
  min: { dimension: 'time', num: '60000' },
  h: { dimension: 'time', num: '3600000' },
  d: { dimension: 'time', num: '86400000' },

  mm: { dimension: 'length', num: '1000' },
  cm: { dimension: 'length', num: '10000' },
  m: { dimension: 'length', num: '1000000' },
  in: { dimension: 'length', num: '25400' },
  ft: { dimension: 'length', num: '304800' },

  Pa: { dimension: 'pressure', num: '1' },
  hPa: { dimension: 'pressure', num: '100' },
  mbar: { dimension: 'pressure', num: '100' },
  kPa: { dimension: 'pressure', num: '1000' },
  bar: { dimension: 'pressure', num: '100000' },
  atm: { dimension: 'pressure', num: '101325' },

  piece: { dimension: 'count', num: '1000' },
  dozen: { dimension: 'count', num: '12000' },

  percent: { dimension: 'ratio', num: '1000' },
  ppm: { dimension: 'ratio', num: '0.1' },

  pH: { dimension: 'acidity', num: '1000' },
  aw: { dimension: 'water-activity', num: '1000' },
} as const satisfies Record<string, UnitDefinition>;
