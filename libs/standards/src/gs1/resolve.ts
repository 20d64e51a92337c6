import { aiEntries } from './ai-table.js';
import { isoDate } from './dates.js';
import { partsOf, type Element } from './elements.js';

/** An element with what its data says: a date, a time, a measure or a price, where it is one. */
export interface ResolvedElement extends Element {
  readonly title: string;
  /** ISO date; null where the data holds none, or the present year, which its century depends on, was not given. */
  readonly date: string | null;
  /** HH:MM or HH:MM:SS, local time where the goods were marked. */
  readonly time: string | null;
  /** The figure with its decimal point, exact. */
  readonly decimal: string | null;
  /** Unit of the figure as the dictionary names it; for money the ISO 4217 number, where the code holds it. */
  readonly unit: string | null;
}

/** The digits with a point before the last `places`, leading zeros dropped. */
function pointed(digits: string, places: number): string {
  const padded = digits.padStart(places + 1, '0');
  const whole = padded.slice(0, padded.length - places).replace(/^0+(?=\d)/, '');
  return places === 0 ? whole : `${whole}.${padded.slice(-places)}`;
}

function figureOf(ai: string, title: string, value: string): Pick<ResolvedElement, 'decimal' | 'unit'> {
  const places = Number(ai[3]);
  const nothing = { decimal: null, unit: null };
  if (ai.length !== 4 || !/^\d+$/.test(value)) return nothing;
  if (/^3[1-6]/.test(ai)) return { decimal: pointed(value, places), unit: /\((.+)\)/.exec(title)?.[1] ?? 'kg/m²' };
  if (/^39[13]/.test(ai)) return value.length < 4 ? nothing : { decimal: pointed(value.slice(3), places), unit: value.slice(0, 3) };
  if (ai.startsWith('394')) return { decimal: pointed(value, places), unit: '%' };
  return /^39[025]/.test(ai) ? { decimal: pointed(value, places), unit: null } : nothing;
}

function timeOf(parts: readonly { readonly part: string; readonly component: { readonly rules: readonly string[] } }[]): string | null {
  const figures = parts
    .filter(({ component }) => component.rules.some((name) => ['hhmi', 'hh', 'mi', 'ss'].includes(name)))
    .map(({ part }) => part)
    .join('');
  return figures === '' ? null : (figures.length === 2 ? `${figures}00` : figures).replace(/(..)(?=.)/g, '$1:');
}

/** What sound data says. Give it only elements without problems of their own: it does not check. */
export function resolve({ ai, value }: Element, asOfYear: number | undefined): ResolvedElement {
  const entry = aiEntries.get(ai);
  const title = entry?.title ?? '';
  const parts = entry === undefined ? [] : partsOf(entry, value);
  const date = parts.find(({ component }) => component.rules.some((name) => name === 'yymmd0' || name === 'yymmdd'));
  const long = parts.find(({ component }) => component.rules.includes('yyyymmdd'))?.part.replace(/^(....)(..)(..)$/, '$1-$2-$3');
  return {
    ai,
    title,
    value,
    date: long ?? (date === undefined ? null : isoDate(date.part, asOfYear)),
    time: timeOf(parts),
    ...figureOf(ai, title, value),
  };
}
