import { canonical, convertDifference, dimensionOf, judge, type observed, type Unit } from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import type * as z from 'zod';
import type { Verdict } from '../rows/control.js';
import type { PointContent } from '../rows/plan-content.js';
import type { Limit } from '../rows/point-fields.js';

/** Goes up when the way verdicts are reached changes; stored with each verdict. */
export const verdictRule = 1;

/** Air in a freezer or at an oven's mouth lies inside this; a probe in food that says otherwise is misread or broken. Common practice, no source. */
const believable = { air: { min: -60_000, max: 400_000 }, food: { min: -60_000, max: 125_000 } };

export interface Observation {
  readonly value: z.infer<typeof observed> | null;
  readonly yes: boolean | null;
  readonly measured: PointContent['measured'];
  readonly seconds?: number | null;
}
/** What a point asks for, as a reading keeps it. */
export interface Requirement {
  readonly limit: Limit;
  readonly measured: PointContent['measured'];
  readonly holdSeconds: string | null;
}

/**
 * Judges what was observed against what its point asks for, exactly and in the limit's own unit. A temperature that no bakehouse has is
 * `not-believable`: recorded, and to be asked again. Within, but measured somewhere else than asked, or held for nobody knows how long: `unsure`.
 */
export function verdictOf(observation: Observation, requirement: Requirement | null, halfWidthMilli: number): Verdict {
  const { value, yes, measured, seconds = null } = observation;
  if (value && !isBelievable(value, measured)) return 'not-believable';
  if (requirement === null) return 'no-limit';
  const verdict = againstLimit(value, yes, requirement.limit, halfWidthMilli);
  if (verdict !== 'within') return verdict;
  if (requirement.limit.type === 'range' && measured !== requirement.measured) return 'unsure';
  if (requirement.holdSeconds === null) return 'within';
  if (seconds === null) return 'unsure';
  return new Decimal(seconds).gte(requirement.holdSeconds) ? 'within' : 'outside';
}

function againstLimit(value: z.infer<typeof observed> | null, yes: boolean | null, limit: Limit, halfWidthMilli: number): Verdict {
  switch (limit.type) {
    case 'yes':
      return yes === null ? 'no-limit' : yes ? 'within' : 'outside';
    case 'elapsed':
      return value ? judge(value, { max: String(limit.maxMinutes), unit: 'min' }, '0') : 'no-limit';
    case 'range':
      return value ? judge(value, limit, halfWidthIn(limit.unit, halfWidthMilli)) : 'no-limit';
  }
}

function isBelievable(value: z.infer<typeof observed>, measured: Observation['measured']): boolean {
  if (dimensionOf(value.unit) !== 'temperature') return true;
  const range = measured === 'air' || measured === 'surface' ? believable.air : believable.food;
  const milli = canonical(value.figure, value.unit);
  return milli >= range.min && milli <= range.max;
}

/** The instrument's half-width (thousandths of a degree C, or of a gram) as a difference in the limit's unit; none where it measures something else. */
function halfWidthIn(unit: Unit, halfWidthMilli: number): string {
  const own = new Decimal(halfWidthMilli).div(1000).toFixed();
  switch (dimensionOf(unit)) {
    case 'temperature':
      return convertDifference(own, 'degC', unit).toFixed();
    case 'mass':
      return convertDifference(own, 'g', unit).toFixed();
    default:
      return '0';
  }
}

/** The unit that a value must convert to for a limit, or null where the limit asks for yes or no. */
export function requiredUnit(limit: Limit): Unit | null {
  return limit.type === 'range' ? limit.unit : limit.type === 'elapsed' ? 'min' : null;
}
