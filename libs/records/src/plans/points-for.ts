import type { PlanContent, PointContent } from '../rows/plan-content.js';

/** What is at hand: a step, the formula it is for, and the products made of it there. */
export interface AtHand {
  readonly step: PointContent['step'];
  readonly formula: string | null;
  readonly products: readonly string[];
}

/**
 * The control points of a plan that apply, in the plan's order. A point that names neither formulas nor products is for everything with
 * its step; one that names some is for these, and where it names both, either is enough: to ask once too often is the safe side.
 */
export function pointsFor(plan: PlanContent, { step, formula, products }: AtHand): PointContent[] {
  return plan.points.filter((point) => {
    if (point.step !== step) return false;
    const forAll = point.formulas.length === 0 && point.products.length === 0;
    return forAll || (formula !== null && point.formulas.includes(formula)) || products.some((p) => point.products.includes(p));
  });
}
