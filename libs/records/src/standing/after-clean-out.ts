import type { Need, Row, State } from '../base/state.js';

const isContent = (state: State, lot: string): boolean => state.knows({ in: 'lot', id: lot }) && state.get('lot', lot)?.type === 'vessel';

/** What has to be looked for before `usedAfterCleanOut` can be asked of a lot whose flows are known: its sources' rows are looked for as sources. */
export const cleanOutNeeds = (state: State, lot: string): Need[] =>
  state
    .find('flow', 'target', lot)
    .filter((f) => isContent(state, f.source))
    .map((f) => ({ in: 'emptied', by: 'lot', value: f.source }));

/** What went into a lot of a vessel's content after that vessel was emptied and cleaned, by the records: one of the two times is wrong, or it was the content that came next. */
export const usedAfterCleanOut = (state: State, lot: string): readonly Row<'flow'>[] =>
  state
    .find('flow', 'target', lot)
    .filter((f) => isContent(state, f.source) && state.find('emptied', 'lot', f.source).some((e) => e.leftMg === 0 && e.at < f.at));
