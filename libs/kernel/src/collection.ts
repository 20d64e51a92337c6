import type * as z from 'zod';

/** Where a collection's rows may be seen from: its own book only, or every book of the organisation (lots travel, makes do not). */
export type Visibility = 'book' | 'organisation';

/** A book’s rows in order of time: a night reads every collection so, and what it costs may not grow with the years before it. */
const inTime = ['book', 'at'] as const;

export interface Collection<N extends string = string, R extends z.ZodObject = z.ZodObject, F extends string = string> {
  readonly name: N;
  readonly row: R;
  /** Fields by which rows are looked up besides their id; each becomes a database index. */
  readonly by: readonly F[];
  /** Fields that rows are walked along, in their order: each list becomes a database index of its own. Where rows have a time, a book’s in order of time too. */
  readonly along: readonly (readonly string[])[];
  readonly visibleTo: Visibility;
  /**
   * A row once written is never taken away by a correction or withdrawal of its entry: these fields then say what it is now, the others stay. Null where
   * it goes.
   */
  readonly stays: Partial<z.infer<R>> | null;
}

/**
 * Declares a collection of rows: the table's name, the row (its id apart), and the fields it is looked up by.
 * Every row is written by exactly one chain of entries (an entry and its corrections), so rows never merge.
 */
export function collection<const N extends string, R extends z.ZodObject, const F extends Extract<keyof z.infer<R>, string>>(
  name: N,
  row: R,
  options: {
    by: readonly F[];
    along?: readonly (readonly (Extract<keyof z.infer<R>, string> | 'book')[])[];
    visibleTo?: Visibility;
    stays?: Partial<z.infer<R>>;
  },
): Collection<N, R, F> {
  const { by, along = [], visibleTo = 'book', stays = null } = options;
  return { name, row, by, along: 'at' in row.shape ? [...along, inTime] : along, visibleTo, stays };
}
