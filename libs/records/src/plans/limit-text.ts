import { quantityText } from '@bakehouse/kernel';
import type { Limit } from '../rows/point-fields.js';

/** `93 °C or more`; `24.5 to 27.5 °C`; `pH 4.6 or less`; `at most 90 min, from 63 to 8 °C`. */
export function limitText(limit: Limit): string {
  switch (limit.type) {
    case 'yes':
      return 'must be yes';
    case 'elapsed': {
      const { maxMinutes, fromCelsius: from, toCelsius: to } = limit;
      return `at most ${maxMinutes} min${from === null || to === null ? '' : `, from ${quantityText(`${from} to ${to}`, 'degC')}`}`;
    }
    case 'range':
      return rangeText(limit.min, limit.max, limit.unit);
  }
}

function rangeText(min: string | null, max: string | null, unit: string): string {
  if (min !== null && max !== null) return quantityText(`${min} to ${max}`, unit);
  if (min !== null) return `${quantityText(min, unit)} or more`;
  return max === null ? 'no limit' : `${quantityText(max, unit)} or less`;
}
