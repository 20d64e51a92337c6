import type * as z from 'zod';
import type { Need, State } from '../kernel/state.js';
import type { subjectSort } from './collections.js';

type Sort = z.infer<typeof subjectSort>;

/** The need that shows whether a subject exists. A site is its own book and is always there. */
export function subjectNeed(sort: Sort, id: string): Need {
  return sort === 'site' ? { in: 'place', id } : { in: sort, id };
}

/** Whether the subject of a reading, miss or deviation is known in this book. */
export function subjectKnown(state: State, sort: Sort, id: string): boolean {
  return sort === 'site' || state.get(sort, id) !== undefined;
}
