import type { Need, Row, State } from '../base/state.js';
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

/** What is a lot of its own in the house, under the same id: another site that it came to knows it so. */
const ownLot: Readonly<Partial<Record<SubjectType, Row<'lot'>['type']>>> = { make: 'made', run: 'run', batch: 'batch' };

/** The needs that show whether food can be reported: also what was made at another site, which has only its lot here. */
export const reportedNeeds = (type: SubjectType, id: string): Need[] => [
  subjectNeed(type, id),
  ...(ownLot[type] === undefined ? [] : [{ in: 'lot', id } satisfies Need]),
];

/** Whether what a deviation is reported about is known in this house. Needs `reportedNeeds`. */
export const reportedKnown = (state: State, type: SubjectType, id: string): boolean =>
  subjectKnown(state, type, id) || (ownLot[type] !== undefined && state.get('lot', id)?.type === ownLot[type]);
