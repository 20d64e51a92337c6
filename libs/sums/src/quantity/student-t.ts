import jstat from 'jstat';

/** Quantile of Student's t: the value below which the given share lies, for 1 or more degrees of freedom. By jstat. */
export function studentQuantile(share: number, degrees: number): number {
  return jstat.studentt.inv(share, degrees);
}
