import type { ChangeIn, ContentIn, LookupIn, NeedIn, RowIn, StateIn } from '@bakehouse/kernel';
import type { collections } from '../rows/collections.js';

export type Collections = typeof collections;
export type CollectionName = keyof Collections;
/** A stored row with its id. */
export type Row<C extends CollectionName> = RowIn<Collections, C>;
/** What an entry writes of a row. */
export type Rows = { [C in CollectionName]: ContentIn<Collections, C> };
export type Lookups = { [C in CollectionName]: LookupIn<Collections, C> };
export type Need = NeedIn<Collections>;
export type State = StateIn<Collections>;
export type Change = ChangeIn<Collections>;
