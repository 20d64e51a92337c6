import type * as z from 'zod';
import type { Collection } from './collection.js';

/** Every collection there is, by its name. The list itself stands with the records; the kernel knows only its shape. */
export type Registry = Readonly<Record<string, Collection>>;

export type NameIn<All extends Registry> = Extract<keyof All, string>;
/** What an entry writes of a row; its id stands beside it. */
export type ContentIn<All extends Registry, C extends NameIn<All>> = z.infer<All[C]['row']>;
/** A stored row with its id. */
export type RowIn<All extends Registry, C extends NameIn<All>> = Readonly<ContentIn<All, C>> & { readonly id: string };
/** The fields that a collection is looked up by. */
export type LookupIn<All extends Registry, C extends NameIn<All>> = All[C]['by'][number];

/**
 * One thing to load before deciding: a row by id, or all rows whose looked-up field has a value; with `follow`, those whose field has the value of
 * `follow` in a row that was found too, and so on to the end: everything upstream of a lot, say, in one question.
 */
export type NeedIn<All extends Registry> = {
  [C in NameIn<All>]: { in: C; id: string } | { in: C; by: LookupIn<All, C>; value: string; follow?: LookupIn<All, C> };
}[NameIn<All>];

/** What a decision may look at. Only what was named as a need is there: asking for anything else is a programming error and throws. */
export interface StateIn<All extends Registry> {
  get<C extends NameIn<All>>(collection: C, id: string): RowIn<All, C> | undefined;
  find<C extends NameIn<All>>(collection: C, by: LookupIn<All, C>, value: string): readonly RowIn<All, C>[];
  /** Whether this was looked for, so that `get` or `find` may be asked. Where everything is there, it always was. */
  knows(need: NeedIn<All>): boolean;
  /**
   * Where a look-up that follows ended at this value, because nothing beyond it matters: the instant from which on that is so. Null where it was
   * followed to its end.
   */
  endsAt(need: NeedIn<All>): string | null;
}

/** One row to be written. */
export type ChangeIn<All extends Registry> = { [C in NameIn<All>]: { in: C; id: string; row: ContentIn<All, C> } }[NameIn<All>];
