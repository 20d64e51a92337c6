import { formatGrams } from '@bakehouse/kernel';
import { onPaper } from './words.js';

/** What was measured and where in the food, without saying one thing twice: `core temperature`, `temperature on arrival, between packs`. */
export function measuredText(parameter: string, measured: string): string {
  const where = onPaper('measured', measured).toLowerCase();
  const said = parameter.toLowerCase();
  return said.includes(where) || said.includes(measured) ? parameter : `${parameter}, ${where}`;
}

/** Pieces, or grams and kilograms, or that nobody knows. */
export function amountOf(pieces: number | null, mg: number | null): string {
  if (pieces !== null) return pieces === 1 ? '1 piece' : `${pieces.toLocaleString('en-GB')} pieces`;
  return mg === null ? 'amount not known' : formatGrams(mg, 'metric');
}
