import type { ChangeIn, ContentIn, LookupIn, NeedIn, RowIn, StateIn } from '@bakehouse/kernel';
import * as z from 'zod';
import type { collections } from '../rows/collections.js';

export type Collections = typeof collections;
export type CollectionName = keyof Collections;
/** A stored row with its id. */
export type Row<C extends CollectionName> = RowIn<Collections, C>;
/** What an entry writes of a row. */
export type Rows = { [C in CollectionName]: ContentIn<Collections, C> };
export type Lookups = { [C in CollectionName]: LookupIn<Collections, C> };
export type Need = NeedIn<Collections>;
/**
 * What a device starts from where it does not hold all records of a lot: so much there was at an instant, or from the beginning where that is null, as far as what it holds
 * came or went since is not in it. With that the device comes to the same figure as the service, and goes on from there by itself. Null: nobody can say.
 */
export interface CarriedOver {
  /** The lot. */
  readonly id: string;
  readonly at: string | null;
  readonly mg: number | null;
  /** What may have gone besides, as one of several lots, by records that the device does not hold. Null: nobody can say how much. */
  readonly perhapsMg: number | null;
}
/** `allowed`: the record stands, and by what else is on record now the food was not on hold then, or as much of it was accepted for use. */
export const takenBackAs = z.enum(['withdrawn', 'corrected', 'allowed']);
export type TakenBackAs = z.infer<typeof takenBackAs>;
/** What became of what a deviation tells, where a later record took it back or answered it: the deviation stays until somebody closes it. */
export interface TakenBack {
  /** The deviation. */
  readonly id: string;
  readonly as: TakenBackAs;
  /** What the corrected record says in its place; null where it was withdrawn, or where its content is withheld. */
  readonly says: string | null;
}
export type State = StateIn<Collections> & {
  /** By lot; only a device has some: the service holds everything. */
  readonly carriedOver?: ReadonlyMap<string, CarriedOver>;
};
export type Change = ChangeIn<Collections>;
