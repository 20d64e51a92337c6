import type * as z from 'zod';
import type { observed } from '../kernel/fields.js';
import { judge } from '../kernel/judge.js';
import { canonical, dimensionOf } from '../kernel/units.js';
import type { Limit } from '../plans/content.js';
import type { Verdict } from './collections.js';

/** Goes up when the way verdicts are reached changes; stored with each verdict. */
export const verdictRule = 1;

/** Air in a freezer or at an oven's mouth lies inside this; a probe in food that says otherwise is misread or broken. Common practice, no source. */
const believable = { air: { min: -60_000, max: 400_000 }, food: { min: -60_000, max: 125_000 } };

/**
 * Judges what was observed against the limit of its point, exactly and in the limit's own unit.
 * A temperature that no bakehouse has is `not-believable`: recorded, and to be asked again. No limit, or an elapsed time: see `judgeElapsed`.
 */
export function verdictOf(observation: { value: z.infer<typeof observed> | null; yes: boolean | null; measured: string }, limit: Limit | null, halfWidthMilli: number): Verdict {
  const { value, yes, measured } = observation;
  if (value && dimensionOf(value.unit) === 'temperature') {
    const range = measured === 'air' || measured === 'surface' ? believable.air : believable.food;
    const milli = canonical(value.figure, value.unit);
    if (milli < range.min || milli > range.max) return 'not-believable';
  }
  if (limit === null) return 'no-limit';
  switch (limit.sort) {
    case 'yes': return yes === null ? 'no-limit' : yes ? 'within' : 'outside';
    case 'elapsed': return value ? judgeElapsed(value, limit.maxMinutes) : 'no-limit';
    case 'range': return value ? judge(value, limit, halfWidthIn(limit.unit, halfWidthMilli)) : 'no-limit';
  }
}

function judgeElapsed(value: z.infer<typeof observed>, maxMinutes: number): Verdict {
  return judge(value, { max: String(maxMinutes), unit: 'min' }, '0') === 'within' ? 'within' : 'outside';
}

/** The instrument's half-width (thousandths of a degree C or of a gram) as a difference in the limit's unit. */
function halfWidthIn(unit: string, halfWidthMilli: number): string {
  const celsius = halfWidthMilli / 1000;
  return String(unit === 'degF' ? celsius * 1.8 : celsius);
}
