import { canonical, dimensionOf, quantityText } from '@bakehouse/kernel';
import type { PointContent } from '../rows/plan-content.js';

/** 70 °C for 2 minutes: published UK guidance (Listeria, 6-log), which lists 60 °C 45 min and 80 °C 6 s as its equivalents. */
const reference = { celsius: 70, seconds: 120 };
/** °C for a tenth of the time; from memory. With it the listed equivalents are the reference's, rounded up. */
const z = 7.5;
/** A core that is only read, and not held, is asked for at this: common practice, no source. */
const unheldCelsius = 75;

/** Seconds that a core is kept at a temperature for what 70 °C does in 2 minutes. */
export const secondsFor = (celsius: number): number => reference.seconds * 10 ** ((reference.celsius - celsius) / z);

/**
 * Words of warning where the core minimum of an oven or a cooking step is below what is usual for germs that do not form spores. Never a prohibition:
 * somebody may have validated it, and what the hazard is stands in words that no program reads.
 */
export function cookWarning({ step, measured, class: of, limit, holdSeconds }: PointContent): string | null {
  if (of === 'process-check' || measured !== 'core' || (step !== 'bake' && step !== 'cook')) return null;
  if (limit.type !== 'range' || limit.min === null || dimensionOf(limit.unit) !== 'temperature') return null;
  const celsius = canonical(limit.min, limit.unit) / 1000;
  const held = Number(holdSeconds ?? 0);
  if (celsius >= unheldCelsius || held >= secondsFor(celsius)) return null;
  return (
    `${quantityText(limit.min, limit.unit)}${held > 0 ? ` held ${held} s` : ' without a time held'} is below what is usual for a core that makes food safe: ` +
    '75 °C (common practice, no source), or 70 °C held for 2 minutes or its equivalent (published UK guidance, for Listeria; it says nothing of spores). ' +
    'Where germs are the hazard here, a competent person has to show that this limit is safe.'
  );
}

/** What a competent person has to look at in a plan, a draft or one in force: a signature does not make a low limit usual. */
export interface PlanWarning {
  readonly point: string;
  readonly name: string;
  readonly text: string;
}
export const planWarnings = (points: readonly PointContent[]): PlanWarning[] =>
  points.flatMap((point) => {
    const text = cookWarning(point);
    return text === null ? [] : [{ point: point.key, name: point.name, text }];
  });
