import { letsThroughMore } from './lets-through.js';
import type { LoosenedPoint, Loosening } from '../rows/loosened.js';
import type { Life, PlanContent, PointContent } from '../rows/plan-content.js';

const classes: readonly PointContent['class'][] = ['process-check', 'oprp', 'ccp'];
const outsides: readonly PointContent['ifOutside'][] = ['note', 'correct', 'hold'];
const misses: readonly PointContent['ifNotMonitored'][] = ['record', 'ask-again', 'hold'];
/** How often, roughly: of two of one rank neither is surely as often as the other. */
const often: Readonly<Record<PointContent['frequency'], number>> = {
  'each-load': 4,
  'each-make': 3,
  'each-batch': 3,
  'each-delivery': 3,
  'twice-a-day': 2,
  'first-load-of-day': 1,
  'each-day': 1,
};
const lives: readonly { readonly life: Life; readonly name: string }[] = [
  { life: 'opened', name: 'Past its life once opened' },
  { life: 'madeHere', name: 'Past the life of what was made here' },
];

/**
 * What a plan lets through that the plan in force does not, control point by control point: a limit that takes in a value which the old one kept out,
 * a shorter time held, a point that is gone, for less, less than critical, less often, or that no longer holds. A point that other points take the
 * place of, as strict in everything, is not loosened, whatever its key. Process checks that hold nothing are not about safety, and are left out.
 */
export function loosenedBy(before: PlanContent, after: PlanContent): LoosenedPoint[] {
  const points = before.points.filter(isAboutSafety).flatMap((point) => loosenedAt(point.key, point.name, changesOf(point, after.points)));
  const past = lives.flatMap(({ life, name }) =>
    loosenedAt(
      `past life: ${life}`,
      name,
      before.pastLife[life] === 'hold' && after.pastLife[life] === 'warn' ? [{ what: 'life', before: 'hold', after: 'warn' }] : [],
    ),
  );
  return [...points, ...past];
}

const loosenedAt = (point: string, name: string, changes: Loosening[]): LoosenedPoint[] =>
  changes.length === 0 ? [] : [{ point, name, changes }];
const isAboutSafety = (p: PointContent): boolean => p.class !== 'process-check' || p.ifOutside === 'hold' || p.ifNotMonitored === 'hold';

function changesOf(point: PointContent, after: readonly PointContent[]): Loosening[] {
  const left = notCovered(
    point,
    after.filter((other) => pointChanges(point, other).length === 0),
  );
  if (left === null) return [];
  const same = after.find((other) => other.key === point.key);
  if (!same) return [{ what: 'gone', before: point.limit }];
  const fewer = notCovered(left, [same]);
  return [...pointChanges(point, same), ...(fewer === null ? [] : [{ what: 'fewer' as const, ...fewer }])];
}

type For = Pick<PointContent, 'formulas' | 'products'>;
const isForAll = ({ formulas, products }: For): boolean => formulas.length === 0 && products.length === 0;

/** What none of these points is for, of what a point is for; null where nothing is left. With both empty it is everything. */
function notCovered(of: For, by: readonly For[]): For | null {
  if (by.some(isForAll)) return null;
  if (isForAll(of)) return { formulas: [], products: [] };
  const formulas = of.formulas.filter((f) => !by.some((point) => point.formulas.includes(f)));
  const products = of.products.filter((p) => !by.some((point) => point.products.includes(p)));
  return formulas.length + products.length === 0 ? null : { formulas, products };
}

/** In what a point is less strict than another, whatever each is for. */
function pointChanges(before: PointContent, after: PointContent): Loosening[] {
  const taken = ({ step, measured, parameter }: PointContent) => ({ step, measured, parameter });
  // Of a yes or no, what is asked is all that there is to compare.
  const asked = before.limit.type === 'yes' && after.limit.type === 'yes' && before.parameter !== after.parameter;
  if (before.step !== after.step || before.measured !== after.measured || asked)
    return [{ what: 'measured', before: taken(before), after: taken(after) }];
  return [...limitChanges(before, after), ...followUpChanges(before, after)];
}

function limitChanges(before: PointContent, after: PointContent): Loosening[] {
  const { holdSeconds: held } = before;
  const shorter = held !== null && Number(held) > 0 && (after.holdSeconds === null || Number(after.holdSeconds) < Number(held));
  return [
    ...(letsThroughMore(before.limit, after.limit) ? [{ what: 'limit' as const, before: before.limit, after: after.limit }] : []),
    ...(shorter ? [{ what: 'held' as const, before: held, after: after.holdSeconds }] : []),
  ];
}

function followUpChanges(a: PointContent, b: PointContent): Loosening[] {
  const found: Loosening[] = [];
  if (classes.indexOf(b.class) < classes.indexOf(a.class)) found.push({ what: 'class', before: a.class, after: b.class });
  if (a.frequency !== b.frequency && often[b.frequency] <= often[a.frequency])
    found.push({ what: 'frequency', before: a.frequency, after: b.frequency });
  if (misses.indexOf(b.ifNotMonitored) < misses.indexOf(a.ifNotMonitored))
    found.push({ what: 'ifNotMonitored', before: a.ifNotMonitored, after: b.ifNotMonitored });
  if (outsides.indexOf(b.ifOutside) < outsides.indexOf(a.ifOutside))
    found.push({ what: 'ifOutside', before: a.ifOutside, after: b.ifOutside });
  return found;
}
