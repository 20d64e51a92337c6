import type { ConcernView, ShelvesView } from '@bakehouse/contracts';
import {
  certainNeeds,
  concernsOf,
  decidedPart,
  goneNeeds,
  shelvesOf,
  standingNeeds,
  surelyGone,
  type Need,
  type Reaching,
  type Shelves,
  type State,
} from '@bakehouse/records';

/** How a lot stands: whether it is surely gone, and what speaks against it. */
export interface Standing {
  readonly gone: boolean;
  readonly concerns: readonly ConcernView[];
  /** Where customers may take it: in a shop of the house, on a counter. None of that where it is surely gone. */
  readonly shelves: Shelves;
}

/** Whether a lot is on hold: something speaks against it, and it is not surely gone. A list of what is in the house has left out what is gone. */
export const isOnHold = ({ gone = false, concerns }: { readonly gone?: boolean; readonly concerns: readonly unknown[] }): boolean =>
  !gone && concerns.length > 0;

/**
 * What has to be looked for before `standingsOf` can be asked: ask again until it names nothing new. `under` are those of the lots that an open concern may reach,
 * where that is known: of the others it is asked what is left of them alone.
 */
export function needsOfStandings(state: State, lots: readonly string[], under = lots): Need[] {
  const first = [...standingNeeds(state, under), ...lots.flatMap((lot) => goneNeeds(state, lot))];
  return first.every((need) => state.knows(need)) ? [...first, ...certainNeeds(state, under)] : first;
}

/** The standing of each of these lots at an instant. Every screen, paper and list reads it here. */
export function standingsOf(state: State, lots: readonly string[], at: string, under = lots): ReadonlyMap<string, Standing> {
  const reaching = concernsOf(state, under, null, at);
  return new Map(
    lots.map((lot) => {
      const gone = surelyGone(state, lot, at);
      const concerns = (reaching.get(lot) ?? []).map((r) => concernView(state, r, lot));
      return [lot, { gone, concerns, shelves: gone ? { inShop: null, onCounter: [] } : shelvesOf(state, lot, at) }];
    }),
  );
}

/** What speaks against a lot, where it comes from, and what was decided about a part of the lot already. */
export function concernView(state: State, { concern, by, certain }: Reaching, of: string): ConcernView {
  const { id, type, what, since, lot } = concern;
  const part = decidedPart(state, of, concern);
  return {
    id,
    type,
    what,
    since,
    from: lot,
    fromName: state.get('lot', lot)?.name ?? '',
    by,
    certain,
    part: part && { ...part, decided: [...part.decided] },
  };
}

/** What a list shows of how a lot stands, with each place by its name. */
export const standingView = (
  { concerns, shelves: { inShop, onCounter } }: Standing,
  siteName: (site: string) => string,
): { concerns: ConcernView[]; shelves: ShelvesView } => ({
  concerns: [...concerns],
  shelves: { inShop, onCounter: onCounter.map((c) => ({ ...c, siteName: siteName(c.site) })) },
});
