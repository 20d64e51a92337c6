import { earliestOf, latestOf } from '@bakehouse/kernel';

/** So much of one lot that went into another. `anyOf` names the group of lots of which it was one, or more. */
export interface Went {
  readonly source: string;
  readonly target: string;
  readonly certain: boolean;
  readonly anyOf: string | null;
  readonly mg: number | null;
  readonly pieces: number | null;
  readonly at: string;
  /** Between when it may have happened, where that is not at its instant. */
  readonly earliest?: string | null;
  readonly latest?: string | null;
}
/** The same as a flow, as far as it matters onto what it was put. */
export interface Into extends Went {
  readonly id: string;
  readonly type: string;
}

/** Whether something was put on, before the oven or after it: on a make, once that was divided, it is on its pieces. */
export const isPutOn = ({ type }: Pick<Into, 'type'>): boolean => type === 'after-oven' || type === 'aid';
/** Whether this made pieces of a lot. */
export const isIntoPieces = ({ type }: Pick<Into, 'type'>): boolean => type === 'divided' || type === 'batched';

/**
 * Onto what something was put that is recorded for a make: after it was divided, onto the pieces that came of it. Where it was divided into more than one product nobody knows
 * which of them have it: each may have all of it, or none. The make itself stays named, with none of it by the record: what was put on once there were pieces is in no dough. What was put on before is in
 * the dough, and where the times leave open which came first it is perhaps in either. `divided`: what came of the make by then or later.
 */
export function putOnMake<F extends Into>(on: F, divided: readonly Into[]): F[] {
  const runs = [...new Map(divided.map((d) => [d.target, d])).values()];
  const perhapsOn = runs.filter((d) => latestOf(on) >= earliestOf(d));
  if (perhapsOn.length === 0) return [on];
  const surelyAfter = runs.every((d) => earliestOf(on) > latestOf(d));
  const perhaps = { certain: false, anyOf: null } as const;
  const inDough = surelyAfter ? { ...perhaps, mg: 0, pieces: null } : perhaps;
  const onto = surelyAfter && runs.length === 1 ? {} : perhaps;
  return [{ ...on, ...inDough }, ...perhapsOn.map(({ target }) => ({ ...on, ...onto, target }))];
}
