import type { Need, State } from '../base/state.js';
import type { SubjectType } from '../rows/control.js';

const needOf: Readonly<Record<SubjectType, (id: string) => Need>> = {
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
export const subjectNeed = (type: SubjectType, id: string): Need => needOf[type](id);

/** Whether the subject of a reading, miss or deviation is known in this book. */
export const subjectKnown = (state: State, type: SubjectType, id: string): boolean => type === 'site' || state.get(type, id) !== undefined;
