import type { Rows, Lookups } from '../collections.js';

export type CollectionName = keyof Rows;
/** A stored row with its id. */
export type Row<C extends CollectionName> = Readonly<Rows[C]> & { readonly id: string };

/** One thing to load before deciding: a row by id, or all rows whose looked-up field has a value. */
export type Need = { [C in CollectionName]: { in: C; id: string } | { in: C; by: Lookups[C]; value: string } }[CollectionName];

/** What a decision may look at. Only what was named as a need is there: asking for anything else is a programming error and throws. */
export interface State {
  get<C extends CollectionName>(collection: C, id: string): Row<C> | undefined;
  find<C extends CollectionName>(collection: C, by: Lookups[C], value: string): readonly Row<C>[];
}

/** One row to be written. */
export type Change = { [C in CollectionName]: { in: C; id: string; row: Rows[C] } }[CollectionName];
