import type { Trend, TrendControl } from '@bakehouse/contracts';
import { everyRule, individualsChart, ruleNames } from '@bakehouse/sums';

interface Counted {
  readonly id: string;
  readonly at: string;
  readonly value: number;
}

/** With fewer, nobody can say how something usually varies (20 to 25 is common practice, from memory). */
export const leastForControl = 20;
/** More make no difference to how it varies, and to answer at once. */
const maxForControl = 100_000;

/**
 * How these readings usually vary: their mean and three sigma of the mean moving range on both sides, with the patterns that are unlikely to be chance
 * (`individualsChart`). It says nothing about what is safe.
 */
export function controlOf(readings: readonly Counted[]): Pick<Trend, 'control' | 'whyNoControl'> {
  if (readings.length < leastForControl) return { control: null, whyNoControl: 'too-few' };
  if (readings.length > maxForControl) return { control: null, whyNoControl: 'too-many' };
  const chart = individualsChart.run({ values: readings.map((r) => r.value), rules: [...everyRule] });
  return chart.ok ? { control: told(readings, chart.value), whyNoControl: null } : { control: null, whyNoControl: 'all-alike' };
}

type Chart = Extract<ReturnType<typeof individualsChart.run>, { ok: true }>['value'];
const told = (readings: readonly Counted[], { centre, limits, signals }: Chart): TrendControl => ({
  readings: readings.length,
  centre,
  lower: limits.lower,
  upper: limits.upper,
  signals: signals.flatMap(({ rule, index }) => {
    const at = readings[index];
    return at ? [{ rule, name: ruleNames[rule], reading: at.id, at: at.at }] : [];
  }),
});
