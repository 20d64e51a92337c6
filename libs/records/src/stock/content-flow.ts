import type { Change, Row } from '../base/state.js';

/** What went into the content of a vessel. */
export const contentFlow = (id: string, of: Omit<Row<'flow'>, 'id' | 'type' | 'certain' | 'anyOf'>): Change => ({
  in: 'flow',
  id,
  row: { ...of, type: 'vessel', certain: true, anyOf: null },
});
