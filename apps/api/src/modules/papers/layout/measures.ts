import { formatGrams } from '@bakehouse/kernel';
import { type Limit } from '@bakehouse/records';
import { onPaper } from './words.js';

const signs: Readonly<Record<string, string>> = { degC: '°C', degF: '°F', percent: '%', ph: 'pH', piece: 'pieces' };
/** How a unit is written on paper; one without a sign of its own is written as it was recorded. */
export const unitText = (unit: string): string => signs[unit] ?? unit;

/** `93 °C or more`; `24.5 to 27.5 °C`; `at most 90 min, from 63 to 8 °C`. */
export function limitText(limit: Limit): string {
  switch (limit.type) {
    case 'yes':
      return 'must be yes';
    case 'elapsed':
      return `at most ${limit.maxMinutes} min${limit.fromCelsius === null || limit.toCelsius === null ? '' : `, from ${limit.fromCelsius} to ${limit.toCelsius} °C`}`;
    case 'range':
      return rangeText(limit.min, limit.max, unitText(limit.unit));
  }
}

function rangeText(min: string | null, max: string | null, unit: string): string {
  if (min !== null && max !== null) return `${min} to ${max} ${unit}`;
  if (min !== null) return `${min} ${unit} or more`;
  return max === null ? 'no bound' : `${max} ${unit} or less`;
}

interface Observed {
  readonly figure: string | null;
  readonly unit: string | null;
  readonly yes: boolean | null;
  readonly seconds: number | null;
}

/** The value as it was observed, never only that it was in order: 21 CFR 117.305(b). */
export function valueText({ figure, unit, yes, seconds }: Observed): string {
  const value =
    figure === null ? (yes === null ? 'no value' : yes ? 'yes' : 'no') : `${figure} ${unit === null ? '' : unitText(unit)}`.trim();
  return seconds === null ? value : `${value}, held ${seconds} s`;
}

/** What was measured and where in the food, without saying one thing twice: `core temperature`, `temperature on arrival, between packs`. */
export function measuredText(parameter: string, measured: string): string {
  const where = onPaper('measured', measured).toLowerCase();
  const said = parameter.toLowerCase();
  return said.includes(where) || said.includes(measured) ? parameter : `${parameter}, ${where}`;
}

/** Thousandths of a degree as degrees: 94400 is 94.4 °C. */
export const milliText = (milli: number): string => `${milli / 1000} °C`;

/** Pieces, or grams and kilograms, or that nobody knows. */
export function amountOf(pieces: number | null, mg: number | null): string {
  if (pieces !== null) return pieces === 1 ? '1 piece' : `${pieces.toLocaleString('en-GB')} pieces`;
  return mg === null ? 'amount not known' : formatGrams(mg, 'metric');
}
