import { derivedId, id } from '@bakehouse/kernel';
import * as z from 'zod';
import type { LotTrouble } from '../standing/lot-trouble.js';
import type { Change, Need, Row, State } from '../base/state.js';
import { subjectType } from '../rows/control.js';

/** What has to be loaded before `usedIn` can be asked: first round, then second. */
export const useNeeds = (lot: string): Need[] => [{ in: 'flow', by: 'source', value: lot }];
export const targetNeeds = (state: State, lot: string): Need[] =>
  state.find('flow', 'source', lot).map((f) => ({ in: 'lot', id: f.target }));

/** Something that a lot went into, as an outcome keeps it. */
export const use = z.strictObject({ subjectType, subject: id, name: z.string() });
export type Use = z.infer<typeof use>;

/** Where a lot went directly: makes, runs, batches or vessels' contents, each once, or those of its uses that are meant. Needs `useNeeds` and `targetNeeds`. */
export function usedIn(state: State, lot: string, which: (flow: Row<'flow'>) => boolean = () => true): Use[] {
  const uses = state
    .find('flow', 'source', lot)
    .filter(which)
    .map((f) => {
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

interface TroubledUse extends Pick<Use, 'subjectType' | 'subject'> {
  readonly type: LotTrouble;
  /** The lot that should not have been used, as the line named it, and what it was called; null where it is the subject itself, which left. */
  readonly lot: string | null;
  readonly name: string;
  readonly at: string;
  readonly doneBy: string | null;
}

/** The deviation about a use that should not have been. It holds nothing: what speaks against the lot, or against using it then, holds what was made. */
export const useDeviation = (id: string, { name, ...of }: TroubledUse): Change => ({
  in: 'deviation',
  id,
  row: { ...of, class: 'ccp', summary: name, holds: false, point: null },
});

interface Turned extends Pick<TroubledUse, 'type' | 'lot' | 'name' | 'at'> {
  readonly root: string;
}

/** A deviation on each of these: a lot that they hold turned out to be in trouble after it was used. */
export const usedDeviations = (uses: readonly Use[], { root, ...of }: Turned): Change[] =>
  uses.map(({ subjectType, subject }) =>
    useDeviation(derivedId(root, `deviation ${subject}`), { ...of, subjectType, subject, doneBy: null }),
  );

interface Put {
  readonly lot: string;
  readonly trouble: LotTrouble | null;
}

/** A deviation on the content of a vessel for each lot in trouble that is in it. */
export function contentDeviations(put: readonly Put[], { root, ...of }: Pick<Turned, 'root' | 'name' | 'at'>): Change[] {
  const troubled = put.flatMap(({ lot, trouble }) => (trouble === null ? [] : [{ lot, type: trouble }]));
  const about = { ...of, subjectType: 'lot', subject: root, doneBy: null } as const;
  return troubled.map((one, i) => useDeviation(derivedId(root, i === 0 ? 'deviation' : `deviation ${one.lot}`), { ...about, ...one }));
}
