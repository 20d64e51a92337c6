import { derivedId, id } from '@bakehouse/kernel';
import * as z from 'zod';
import { holdsByItself, type LotTrouble } from '../standing/lot-trouble.js';
import type { Change, Need, State } from '../base/state.js';
import { subjectType } from '../rows/control.js';

/** What has to be loaded before `usedIn` can be asked: first round, then second. */
export const useNeeds = (lot: string): Need[] => [{ in: 'flow', by: 'source', value: lot }];
export const targetNeeds = (state: State, lot: string): Need[] =>
  state.find('flow', 'source', lot).map((f) => ({ in: 'lot', id: f.target }));

/** Something that a lot went into, as an outcome keeps it. */
export const use = z.strictObject({ subjectType, subject: id, name: z.string() });
export type Use = z.infer<typeof use>;

/** Where a lot went directly: makes, runs, batches or vessels' contents, each once. Needs `useNeeds` and `targetNeeds`. */
export function usedIn(state: State, lot: string): Use[] {
  const uses = state.find('flow', 'source', lot).map((f) => {
    const target = state.get('lot', f.target);
    return { subjectType: sortOf(target?.type), subject: f.target, name: target?.name ?? '' };
  });
  return [...new Map(uses.map((u) => [u.subject, u])).values()].sort((a, b) => (a.subject < b.subject ? -1 : 1));
}

/** What has to be looked for before `wentAnywhere` can be asked. */
export const wentNeeds = (lot: string): Need[] => [
  ...useNeeds(lot),
  { in: 'departure', by: 'lot', value: lot },
  { in: 'lotIdentified', by: 'same', value: lot },
];

/** Whether anything of a lot was used, sent out or thrown away, or another lot turned out to be the same. Needs `wentNeeds`. */
export const wentAnywhere = (state: State, lot: string): boolean =>
  state.find('flow', 'source', lot).length > 0 ||
  state.find('departure', 'lot', lot).length > 0 ||
  state.find('lotIdentified', 'same', lot).length > 0;

function sortOf(type: string | undefined): Use['subjectType'] {
  return type === 'made' ? 'make' : type === 'run' || type === 'batch' ? type : 'lot';
}

/** A deviation on each of these: a lot that they hold turned out to be in trouble after it was used. */
export function usedDeviations(root: string, uses: readonly Use[], type: LotTrouble, lotName: string, at: string): Change[] {
  return uses.map((u): Change => ({
    in: 'deviation',
    id: derivedId(root, `deviation ${u.subject}`),
    row: {
      subjectType: u.subjectType,
      subject: u.subject,
      type,
      class: 'ccp',
      summary: lotName,
      holds: holdsByItself(type),
      point: null,
      doneBy: null,
      at,
    },
  }));
}
