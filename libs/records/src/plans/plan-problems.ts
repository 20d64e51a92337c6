import { refuse, type Refused } from '@bakehouse/kernel';
import { pointProblem } from './point-problem.js';
import type { State } from '../base/state.js';
import type { PlanContent, PointContent } from '../rows/plan-content.js';

/**
 * Every reason why a plan cannot be approved: a duplicate key, a control point that breaks a rule, an unknown formula or product.
 * Needs `formulaVersion` by `formula` and `specification` by `material` for what the points name.
 */
export function planProblems(content: PlanContent, state: State): Refused[] {
  return content.points.flatMap((point, i) =>
    problemsOf(point, content.points.findIndex((other) => other.key === point.key) < i, `payload.content.points.${i}`, state),
  );
}

function problemsOf(point: PointContent, twice: boolean, field: string, state: State): Refused[] {
  const problem = pointProblem(point);
  return [
    ...(twice ? [refuse('unacceptable-value', `${field}.key`, 'each key once')] : []),
    ...(problem ? [refuse('unacceptable-value', `${field}.${problem.field}`, problem.acceptable)] : []),
    ...point.formulas.flatMap((f, n) =>
      state.find('formulaVersion', 'formula', f).length > 0 ? [] : [refuse('unknown-formula', `${field}.formulas.${n}`)],
    ),
    ...point.products.flatMap((p, n) =>
      state.find('specification', 'material', p).some((s) => s.type === 'product')
        ? []
        : [refuse('unknown-material', `${field}.products.${n}`, 'a material of the type "product"')],
    ),
  ];
}
