import { WorkingSet, type Need, type State } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { ClearCut } from './clear-cut.js';
import { together } from './load-together.js';
import { loadNeeds } from './store.js';
import type { BookRef } from './types.js';

interface Into {
  readonly cut?: ClearCut;
  /** What was loaded already, and what is loaded is put into. */
  readonly work?: WorkingSet;
}

/**
 * Loads what a question about the records needs, round by round until it names nothing new: the same rows, looked up the same way, as the door decides on.
 * The books are those whose own rows may be looked at; what is known to the whole organisation is there whichever they are.
 */
export async function loadState(
  client: ClientBase,
  books: readonly BookRef[],
  needs: (state: State) => readonly Need[],
  { cut = new ClearCut('infinity', new Date(0)), work = new WorkingSet() }: Into = {},
): Promise<WorkingSet> {
  const [first] = books;
  if (!first) return work;
  for (let more = work.missing(needs(work)); more.length > 0; more = work.missing(needs(work)))
    await loadNeeds(
      client,
      first.organisation,
      // All see into one working set: what is asked for is named once.
      books.map((book) => ({ book, work, needs: book === first ? more : [] })),
      cut,
      together,
    );
  return work;
}
