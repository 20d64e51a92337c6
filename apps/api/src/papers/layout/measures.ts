import { countText, formatGrams } from '@bakehouse/kernel';
import { onPaper } from './words.js';

/** What was measured and where in the food, without repetition: `core temperature`, `temperature on arrival, between packs`. */
export function measuredText(parameter: string, measured: string): string {
  const where = onPaper('measured', measured).toLowerCase();
  const name = parameter.toLowerCase();
  return name.includes(where) || name.includes(measured) ? parameter : `${parameter}, ${where}`;
}

/** Pieces, or grams and kilograms, or "amount not known". */
export function amountOf(pieces: number | null, mg: number | null): string {
  if (pieces !== null) return countText(pieces, 'piece');
  return mg === null ? 'amount not known' : formatGrams(mg, 'metric');
}
