import type { BatchStanding } from '@bakehouse/contracts';
import { releaseFindings, releaseNeeds, type Need, type State } from '@bakehouse/records';
import { needsOfStandings, standingsOf } from './standing.js';

/** What has to be looked for before `batchStandingsOf` can be asked: ask again until it names nothing new. */
export const needsOfBatchStandings = (state: State, batches: readonly string[]): Need[] => [
  ...needsOfStandings(state, batches),
  ...batches.flatMap((id) => {
    const need: Need = { in: 'batch', id };
    const batch = state.knows(need) ? state.get('batch', id) : undefined;
    return batch ? releaseNeeds(batch, state) : [need];
  }),
];

/** How each batch stands now: surely gone, on hold whether released or not, released, or else what it waits for. */
export function batchStandingsOf(state: State, batches: readonly string[], at: string): ReadonlyMap<string, BatchStanding> {
  const standings = standingsOf(state, batches, at);
  return new Map(
    batches.flatMap((id): [string, BatchStanding][] => {
      const batch = state.get('batch', id);
      const standing = standings.get(id);
      if (!batch || !standing) return [];
      if (standing.gone) return [[id, 'gone']];
      if (standing.concerns.length > 0) return [[id, 'on-hold']];
      if (state.find('release', 'batch', id).length > 0) return [[id, 'released']];
      return [[id, releaseFindings(batch, state).length > 0 ? 'waiting' : 'ready']];
    }),
  );
}
