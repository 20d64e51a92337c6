import { WorkingSet, type Need, type State } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { ClearCut } from './clear-cut.js';
import { loadTogether } from './load-together.js';
import { loadNeeds } from './store.js';
import type { BookRef } from './types.js';

/**
 * Loads what a question about the records needs, round by round until it names nothing new: the same rows, looked up the same way, as the door decides on.
 * The books are those whose own rows may be looked at; what is known to the whole organisation is there whichever they are.
 */
export async function loadState(
  client: ClientBase,
  books: readonly BookRef[],
  needs: (state: State) => readonly Need[],
  cut = new ClearCut('infinity', new Date(0)),
): Promise<WorkingSet> {
  const work = new WorkingSet();
  const [first] = books;
  if (!first) return work;
  for (let more = work.missing(needs(work)); more.length > 0; more = work.missing(needs(work)))
    await loadNeeds(
      client,
      first.organisation,
      books.map((book) => ({ book, work, needs: more })),
      cut,
      loadTogether,
    );
  return work;
}
