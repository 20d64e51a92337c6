import type { Row } from '../base/state.js';
import type { PointContent } from '../rows/plan-content.js';

/** `evidence`: on what it rests, where it was said when the limit was loosened: the basis that stands in the point may be older. */
export interface Validation extends NonNullable<PointContent['validated']> {
  readonly evidence: string | null;
}

/** Who validated the limit of a point as a plan version has it, and when: said when it was loosened, else in the point. Null where nobody has recorded it. */
export function validationOf(
  { loosened }: Pick<Row<'planVersion'>, 'loosened'>,
  { key, validated }: Pick<PointContent, 'key' | 'validated'>,
): Validation | null {
  const now = loosened.find((one) => one.point === key);
  return now ? { by: now.validatedBy, on: now.validatedOn, evidence: now.evidence } : validated && { ...validated, evidence: null };
}
