import type { Row } from '../base/state.js';
import type { PointContent } from '../rows/plan-content.js';

export type Validation = NonNullable<PointContent['validated']>;

/** Who validated the limit of a point as a plan version has it, and when: said when it was loosened, else in the point. Null where nobody has recorded it. */
export function validationOf(
  { loosened }: Pick<Row<'planVersion'>, 'loosened'>,
  { key, validated }: Pick<PointContent, 'key' | 'validated'>,
): Validation | null {
  const now = loosened.find((one) => one.point === key);
  return now ? { by: now.validatedBy, on: now.validatedOn } : validated;
}
