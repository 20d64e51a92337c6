import type { BatchStanding } from '@bakehouse/contracts';
import {
  asFindings,
  concernsOf,
  destroyedWhole,
  releaseFindings,
  releaseNeeds,
  releaseOf,
  type Finding,
  type Need,
  type Reaching,
  type Row,
  type State,
} from '@bakehouse/records';
import { isOnHold, needsOfStandings, standingsOf, type Standing } from './standing.js';

/**
 * Whether a batch may leave: released by rule or by exception, with what was found since; something speaks against it; it waits for readings; or it is ready to be
 * released by rule. Released stays released. Destroyed, of which nothing is left, whatever was decided before.
 */
export type BatchRelease =
  | { readonly state: 'released'; readonly way: Row<'release'>['way']; readonly at: string; readonly since: readonly Finding[] }
  | { readonly state: 'may-go' | 'destroyed' }
  | { readonly state: 'on-hold' | 'waits'; readonly findings: readonly Finding[] };

/** The same by what speaks against it, as a screen has worked it out for all its lots. */
export function batchReleaseOf(state: State, batch: Row<'batch'>, reaching: readonly Reaching[]): BatchRelease {
  if (destroyedWhole(state, batch.id)) return { state: 'destroyed' };
  const released = releaseOf(state, batch.id);
  // What an exception was signed in spite of is decided: only what came after it is found.
  if (released) return { state: 'released', way: released.way, at: released.at, since: asFindings(state, reaching) };
  const findings = releaseFindings(batch, state, reaching);
  if (findings.length === 0) return { state: 'may-go' };
  return { state: findings.some(speaksAgainst) ? 'on-hold' : 'waits', findings };
}

/** A reading that is not taken yet speaks against nothing before the batch is released or used. */
const speaksAgainst = ({ code, concern }: Finding): boolean => concern !== null && code !== 'not-taken';

/** What has to be looked for before `batchStandingsOf` can be asked: ask again until it names nothing new. */
export const needsOfBatchStandings = (state: State, batches: readonly string[]): Need[] => [
  ...needsOfStandings(state, batches),
  ...batches.flatMap((id) => {
    const need: Need = { in: 'batch', id };
    const batch = state.knows(need) ? state.get('batch', id) : undefined;
    return batch ? releaseNeeds(batch, state) : [need];
  }),
];

const words: Readonly<Record<BatchRelease['state'], BatchStanding>> = {
  released: 'released',
  'may-go': 'ready',
  'on-hold': 'on-hold',
  waits: 'waiting',
  destroyed: 'gone',
};

/** How each batch stands now: surely gone, on hold whether released or not, released, or else what it waits for. */
export function batchStandingsOf(state: State, batches: readonly string[], at: string): ReadonlyMap<string, BatchStanding> {
  const standings = standingsOf(state, batches, at);
  const reaching = concernsOf(state, batches);
  return new Map(
    batches.flatMap((id): [string, BatchStanding][] => {
      const batch = state.get('batch', id);
      const standing = standings.get(id);
      if (!batch || !standing) return [];
      if (standing.gone) return [[id, 'gone']];
      if (isOnHold(standing)) return [[id, 'on-hold']];
      return [[id, words[batchReleaseOf(state, batch, reaching.get(id) ?? []).state]]];
    }),
  );
}

/** How food that is no batch stands; null where it is here and nothing speaks against it. */
export function standingOfPart(standing: Standing | undefined): BatchStanding | null {
  if (!standing || standing.gone) return 'gone';
  return isOnHold(standing) ? 'on-hold' : null;
}
