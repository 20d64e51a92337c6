import type { ConcernView } from '@bakehouse/contracts';
import { concernsOf, goneNeeds, standingNeeds, surelyGone, type Need, type Reaching, type State } from '@bakehouse/records';

/** How a lot stands: whether it is surely gone, and what speaks against it. */
export interface Standing {
  readonly gone: boolean;
  readonly concerns: readonly ConcernView[];
}

/** What has to be looked for before `standingsOf` can be asked: ask again until it names nothing new. */
export const needsOfStandings = (state: State, lots: readonly string[]): Need[] => [
  ...standingNeeds(state, lots),
  ...lots.flatMap(goneNeeds),
];

/** The standing of each of these lots at an instant. Every screen, paper and list reads it here. */
export function standingsOf(state: State, lots: readonly string[], at: string): ReadonlyMap<string, Standing> {
  const reaching = concernsOf(state, lots);
  return new Map(
    lots.map((lot) => [lot, { gone: surelyGone(state, lot, at), concerns: (reaching.get(lot) ?? []).map((r) => concernView(state, r)) }]),
  );
}

export function concernView(state: State, { concern, by, certain }: Reaching): ConcernView {
  const { id, type, what, since, lot } = concern;
  return { id, type, what, since, from: lot, fromName: state.get('lot', lot)?.name ?? '', by, certain };
}
