import { cooling } from '@bakehouse/sums';
import { profile, type Pair } from './profiles.js';

/** How food cooled by a rule: that of cooked food under the Food Code where nothing else is said. */
export function coolingOf(pairs: readonly Pair[], more: Record<string, unknown> = { rule: 'us-cooked' }) {
  const outcome = cooling.calculate({ profile: profile(...pairs), ...more });
  if (!outcome.ok) throw new Error(`${outcome.field}: ${outcome.acceptable}`);
  return outcome.value;
}

/** One stage of a house's own. */
export const limit = (fromCelsius: number | null, toCelsius: number, withinMinutes: number) => ({
  rule: [{ fromCelsius, toCelsius, withinMinutes }],
});
