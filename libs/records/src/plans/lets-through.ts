import { compareExact, dimensionOf, type Unit } from '@bakehouse/kernel';
import type { Limit } from '../rows/point-fields.js';

type Range = Extract<Limit, { type: 'range' }>;
type Elapsed = Extract<Limit, { type: 'elapsed' }>;

/** Whether a limit lets through a value that the one before did not. Limits that cannot be compared count as if it did: somebody has to say why. */
export function letsThroughMore(before: Limit, after: Limit): boolean {
  if (before.type === 'range' && after.type === 'range') return rangeLetsMore(before, after);
  if (before.type === 'elapsed' && after.type === 'elapsed') return elapsedLetsMore(before, after);
  return before.type !== after.type;
}

function rangeLetsMore(before: Range, after: Range): boolean {
  if (dimensionOf(before.unit) !== dimensionOf(after.unit)) return true;
  const order = (a: string, b: string): number => compareExact({ figure: a, unit: before.unit }, { figure: b, unit: after.unit });
  return (
    (before.min !== null && (after.min === null || order(before.min, after.min) > 0)) ||
    (before.max !== null && (after.max === null || order(before.max, after.max) < 0))
  );
}

/** More minutes; a clock that starts later or stops earlier. Which way that is follows from whether it cools or warms. */
function elapsedLetsMore(before: Elapsed, after: Elapsed): boolean {
  if (after.maxMinutes > before.maxMinutes) return true;
  const [from, to] = [before.fromCelsius, before.toCelsius];
  if (from === null || to === null || after.fromCelsius === null || after.toCelsius === null)
    return from !== after.fromCelsius || to !== after.toCelsius;
  const cools = celsius(from, to) > 0;
  const [starts, stops] = [celsius(after.fromCelsius, from), celsius(after.toCelsius, to)];
  return cools ? starts < 0 || stops > 0 : starts > 0 || stops < 0;
}

const degrees: Unit = 'degC';
const celsius = (a: string, b: string): number => compareExact({ figure: a, unit: degrees }, { figure: b, unit: degrees });
