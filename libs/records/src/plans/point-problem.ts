import { compareExact, dimensionOf, saysSomething } from '@bakehouse/kernel';
import { isNotValidated } from './not-validated.js';
import { verdictOf } from '../control/verdict.js';
import type { PointContent } from '../rows/plan-content.js';

type Measured = PointContent['measured'];
type Range = Extract<PointContent['limit'], { type: 'range' }>;
export interface PointProblem {
  readonly field: string;
  readonly acceptable: string;
}

const isTemperature = (measured: Measured): boolean => ['air', 'surface', 'between-packs', 'core', 'liquid', 'dough'].includes(measured);

/**
 * What makes no sense in a control point, or undefined: a limit that does not fit what is measured, a range with no end or the wrong way
 * round, an end that no food has, a hold without a minimum, a critical point with nothing to do when it is missed, a basis that still says
 * that nobody validated it. Whether a limit is right is not judged here: a competent person validates it.
 */
export function pointProblem(point: PointContent): PointProblem | undefined {
  return limitProblem(point) ?? holdProblem(point) ?? criticalProblem(point) ?? starterProblem(point);
}

function limitProblem({ measured, limit }: PointContent): PointProblem | undefined {
  switch (limit.type) {
    case 'yes':
      return measured === 'yes-no' ? undefined : { field: 'limit.type', acceptable: `range or elapsed: what is measured is ${measured}` };
    case 'elapsed':
      return measured === 'elapsed'
        ? elapsedProblem(limit.fromCelsius, limit.toCelsius)
        : { field: 'limit.type', acceptable: 'elapsed only where what is measured is elapsed' };
    case 'range':
      return rangeProblem(measured, limit);
  }
}

function elapsedProblem(from: string | null, to: string | null): PointProblem | undefined {
  const same = from !== null && to !== null && compareExact({ figure: from, unit: 'degC' }, { figure: to, unit: 'degC' }) === 0;
  return same ? { field: 'limit.toCelsius', acceptable: 'another temperature than the one it starts from' } : undefined;
}

function rangeProblem(measured: Measured, limit: Range): PointProblem | undefined {
  const unit = unitProblem(measured, limit);
  if (unit) return { field: 'limit.unit', acceptable: unit };
  const { min, max } = limit;
  if (min === null && max === null) return { field: 'limit.min', acceptable: 'a minimum, a maximum or both' };
  const reversed = min !== null && max !== null && compareExact({ figure: min, unit: limit.unit }, { figure: max, unit: limit.unit }) > 0;
  if (reversed) return { field: 'limit.max', acceptable: `at least ${min}` };
  const strange = (['min', 'max'] as const).find((end) => isStrange(limit[end], limit, measured));
  return strange && { field: `limit.${strange}`, acceptable: `a figure that ${measured} can have, in ${limit.unit}` };
}

function unitProblem(measured: Measured, { unit }: Range): string | undefined {
  if (isTemperature(measured)) return dimensionOf(unit) === 'temperature' ? undefined : 'a unit of temperature';
  if (measured === 'mass') return dimensionOf(unit) === 'mass' ? undefined : 'a unit of mass';
  if (measured === 'elapsed') return dimensionOf(unit) === 'time' ? undefined : 'a unit of time';
  if (measured === 'ph') return unit === 'pH' ? undefined : 'pH';
  return 'none: yes or no has no range';
}

/** An end that would be called not believable as a reading is a slip of the unit or of the finger; so is a pH outside 0 to 14, or less than nothing. */
function isStrange(figure: string | null, { unit }: Range, measured: Measured): boolean {
  if (figure === null) return false;
  if (isTemperature(measured))
    return verdictOf({ value: { figure, unit }, yes: null, measured, seconds: null }, null, 0) === 'not-believable';
  return Number(figure) < 0 || (measured === 'ph' && Number(figure) > 14);
}

function holdProblem({ holdSeconds, measured, limit }: PointContent): PointProblem | undefined {
  const fits = holdSeconds === null || (isTemperature(measured) && limit.type === 'range' && limit.min !== null);
  return fits ? undefined : { field: 'holdSeconds', acceptable: 'none: only a temperature with a minimum is held' };
}

/** A critical control point has a critical limit with its grounds, and actions laid down beforehand (Codex CXC 1-1969, section on HACCP; from memory). */
function criticalProblem(point: PointContent): PointProblem | undefined {
  if (point.class !== 'ccp') return undefined;
  if (!saysSomething(point.correctiveAction)) return { field: 'correctiveAction', acceptable: 'what is done when the limit is not met' };
  if (!saysSomething(point.basis)) return { field: 'basis', acceptable: 'what the limit rests on' };
  return point.ifOutside === 'note' ? { field: 'ifOutside', acceptable: 'correct or hold' } : undefined;
}

/** Words that came with a starter are no evidence, whatever the class. */
const starterProblem = ({ basis }: PointContent): PointProblem | undefined =>
  isNotValidated(basis)
    ? { field: 'basis', acceptable: 'your own evidence, or nothing where none is needed, in place of the starter’s words' }
    : undefined;
