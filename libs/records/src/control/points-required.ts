import { latest } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';
import { processStep } from '../rows/formula-content.js';
import type { PointContent } from '../rows/plan-content.js';

/** The steps that formulas tell of themselves. */
export const formulaSteps: readonly string[] = processStep.shape.type.options;

/**
 * Whether a control point is for this product. One that names formulas or products is for those. One that names none is for everything with its step:
 * where a formula tells its steps, for those that have it; where nobody can tell, for all.
 */
export function pointApplies(point: PointContent, of: { formula: string; product: string | null; steps: readonly string[] }): boolean {
  if (point.formulas.length > 0 && !point.formulas.includes(of.formula)) return false;
  if (point.products.length > 0 && (of.product === null || !point.products.includes(of.product))) return false;
  if (point.formulas.length > 0 || point.products.length > 0) return true;
  return of.steps.length === 0 || !formulaSteps.includes(point.step) || of.steps.includes(point.step);
}

interface Baked {
  readonly load: string;
  readonly product: string;
  readonly oven: string;
  readonly bakeDay: string;
  readonly at: string;
  readonly id: string;
}

/** The first load of a line's day for its product in its oven: that of the earliest of these lines. */
export const firstOfDay = <L extends Baked>(own: L, lines: readonly L[]): string =>
  lines
    .filter((l) => l.product === own.product && l.oven === own.oven && l.bakeDay === own.bakeDay)
    .reduce((first, l) => (l.at < first.at || (l.at === first.at && l.load < first.load) ? l : first), own).load;

/** Whether a load is the first of its day for a product in its oven. */
export function isFirstOfDay(load: string, product: string, lines: readonly Baked[]): boolean {
  const own = lines.find((l) => l.load === load && l.product === product);
  return own !== undefined && firstOfDay(own, lines) === load;
}

export type Answer = 'within' | 'outside' | 'unsettled' | 'missing';

/** What the readings of one point about one subject say: the last that is within or outside; only doubtful ones are `unsettled`. */
export function answerOf(pointKey: string, subject: string, readings: readonly Row<'reading'>[]): Answer {
  const last = latest(readings.filter((r) => r.subject === subject && r.pointKey === pointKey && r.verdict !== 'not-believable'));
  if (last) return last.verdict === 'within' || last.verdict === 'outside' ? last.verdict : 'unsettled';
  return readings.some((r) => r.subject === subject && r.pointKey === pointKey) ? 'unsettled' : 'missing';
}
