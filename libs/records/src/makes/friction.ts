import type { FrictionCause } from '../rows/makes.js';

/** Temperatures in thousandths of a degree C. */
export interface MixTemperatures {
  readonly dough: number | null;
  readonly room: number | null;
  readonly flour: number | null;
  readonly water: number | null;
}

/**
 * The friction factor that a mix had, in thousandths of a Celsius difference: three times the dough less room, flour and water; null where one is missing.
 * Common practice, no source. It is not the four-term factor that counts a preferment: the two are different numbers.
 */
export function frictionOf({ dough, room, flour, water }: MixTemperatures): number | null {
  return dough === null || room === null || flour === null || water === null ? null : 3 * dough - (room + flour + water);
}

/** A factor further than this from the expected one, 3 °C, is worth a question. Common practice, no source. */
export const frictionTellingMilli = 3000;
/** A make this far from the size that the factor was found at warms otherwise. Common practice, no source. */
export const sizeTellingPercent = 25;

export interface Mix {
  readonly minutesFast: number | null;
  readonly minutesSlow: number | null;
  readonly sizePercent: number | null;
}

/**
 * What may explain a factor more than 3 °C from the expected one: minutes at a speed that point the same way, then the size of the make. Empty where
 * nothing is known, or where the factor is as expected.
 */
export function frictionCauses(
  factor: number | null,
  expected: number | null,
  done: Mix,
  planned: Pick<Mix, 'minutesFast' | 'minutesSlow'>,
): FrictionCause[] {
  if (factor === null || expected === null || Math.abs(factor - expected) <= frictionTellingMilli) return [];
  const warmer = factor > expected;
  const minutes = (what: 'fast-minutes' | 'slow-minutes', actual: number | null, plan: number | null): FrictionCause[] =>
    actual !== null && plan !== null && actual !== plan && actual > plan === warmer ? [{ what, actual, planned: plan }] : [];
  const otherSize = done.sizePercent !== null && Math.abs(done.sizePercent - 100) > sizeTellingPercent;
  const size: FrictionCause[] = otherSize ? [{ what: 'size-percent', actual: done.sizePercent, planned: 100 }] : [];
  return [
    ...minutes('fast-minutes', done.minutesFast, planned.minutesFast),
    ...minutes('slow-minutes', done.minutesSlow, planned.minutesSlow),
    ...size,
  ];
}
