import type { Need, State } from '../kernel/state.js';
import type { SubjectSort } from './collections.js';

const needOf: Readonly<Record<SubjectSort, (id: string) => Need>> = {
  make: (id) => ({ in: 'make', id }),
  load: (id) => ({ in: 'load', id }),
  run: (id) => ({ in: 'run', id }),
  batch: (id) => ({ in: 'batch', id }),
  lot: (id) => ({ in: 'lot', id }),
  delivery: (id) => ({ in: 'delivery', id }),
  place: (id) => ({ in: 'place', id }),
  instrument: (id) => ({ in: 'instrument', id }),
  site: (id) => ({ in: 'place', id }),
};

/** The need that shows whether a subject exists. A site is its own book and is always there. */
export const subjectNeed = (sort: SubjectSort, id: string): Need => needOf[sort](id);

/** Whether the subject of a reading, miss or deviation is known in this book. */
export const subjectKnown = (state: State, sort: SubjectSort, id: string): boolean => sort === 'site' || state.get(sort, id) !== undefined;
