import type { Unit } from './units.js';

/** How each unit is written, on screens and on paper. */
const signs = {
  mg: 'mg',
  g: 'g',
  kg: 'kg',
  t: 't',
  oz: 'oz',
  lb: 'lb',
  ul: 'µl',
  ml: 'ml',
  cl: 'cl',
  dl: 'dl',
  l: 'l',
  'uk-fl-oz': 'UK fl oz',
  'uk-pint': 'UK pt',
  'uk-gal': 'UK gal',
  'us-fl-oz': 'US fl oz',
  'us-cup': 'US cup',
  'us-pint': 'US pt',
  'us-quart': 'US qt',
  'us-gal': 'US gal',
  degC: '°C',
  degF: '°F',
  K: 'K',
  ms: 'ms',
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
  hPa: 'hPa',
  mbar: 'mbar',
  kPa: 'kPa',
  bar: 'bar',
  atm: 'atm',
  piece: 'pieces',
  dozen: 'dozen',
  percent: '%',
  ppm: 'ppm',
  pH: 'pH',
  aw: 'aw',
} as const satisfies Record<Unit, string>;
const signOf: ReadonlyMap<string, string> = new Map(Object.entries(signs));

/** Scales whose name stands before the figure: pH 5.4. */
const scales: ReadonlySet<string> = new Set(['pH', 'aw'] satisfies Unit[]);

/** How a unit is written; what is no unit, as it was recorded. */
export const unitText = (unit: string): string => signOf.get(unit) ?? unit;

/** A figure, or a range of them, with its unit: 94.4 °C, 93 to 95 °C, pH 5.4, 12 pieces. */
export function quantityText(figure: string, unit: string | null): string {
  if (unit === null) return figure;
  if (scales.has(unit)) return `${unitText(unit)} ${figure}`;
  return unit === 'piece' && figure === '1' ? '1 piece' : `${figure} ${unitText(unit)}`;
}

export interface Observed {
  readonly figure: string | null;
  readonly unit: string | null;
  readonly yes: boolean | null;
  readonly seconds?: number | null;
}

/** A value as it was observed, in its own unit, never only that it was in order: 21 CFR 117.305(b). */
export function observedText({ figure, unit, yes, seconds = null }: Observed): string {
  const value = figure === null ? (yes === null ? 'no value' : yes ? 'yes' : 'no') : quantityText(figure, unit);
  return seconds === null ? value : `${value}, held ${seconds} s`;
}

/** Thousandths of a degree as degrees: 94400 is 94.4 °C. */
export const celsiusText = (milli: number): string => quantityText(String(milli / 1000), 'degC');

/** A number of things, in the singular where it is one: 1 lot, 2 lots, 1,204 pieces. */
export const countText = (n: number, one: string, more = `${one}s`): string => `${n.toLocaleString('en-GB')} ${n === 1 ? one : more}`;

/** A length of time as it is told: whole minutes as minutes, whatever else as seconds. */
export const secondsText = (seconds: number): string => (seconds > 0 && seconds % 60 === 0 ? `${seconds / 60} min` : `${seconds} s`);

/** How long something took or stood, in hours and minutes. */
export function minutesText(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [...(hours > 0 ? [countText(hours, 'hour')] : []), ...(rest > 0 || hours === 0 ? [countText(rest, 'minute')] : [])].join(' ');
}
