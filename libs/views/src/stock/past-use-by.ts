import { localDay } from '@bakehouse/kernel';
import {
  goneNeeds,
  keepsNeeds,
  leftByPlace,
  measureOf,
  movementsOf,
  pastUseBy,
  placeOf,
  surelyGone,
  type Need,
  type Row,
  type State,
} from '@bakehouse/records';
import type { Standing } from '../standing/standing.js';

/** A lot that may be at a site, of the book of some site. */
export interface MayBeHere {
  readonly lot: string;
  readonly book: string;
}
interface AtSite {
  readonly site: string;
  readonly zone: string;
  /** Whether the house has other sites: with what is in its shop they are told, and the sender has none of it. */
  readonly others: boolean;
  readonly at: string;
}

/** What has to be looked for, as far as can be named now, before `pastUseByHere` can be asked of these lots, beside how they stand. */
export const pastUseByNeeds = (state: State, lots: readonly string[]): Need[] =>
  lots.flatMap((lot) => [...keepsNeeds(state, lot), ...namedAs(state, lot).flatMap((same) => goneNeeds(state, same))]);

/**
 * Of these lots those that are past a use-by date on this day of the site and are there, each with the first such date, the longest past first: its own lots and what
 * it was sent as a shop of the house, as far as they are not surely gone. What was named as a lot that is on the list, or gone, is on it by that.
 */
export function pastUseByHere(
  state: State,
  lots: readonly MayBeHere[],
  standings: ReadonlyMap<string, Pick<Standing, 'gone' | 'shelves'>>,
  here: AtSite,
): { readonly lot: string; readonly useBy: string; readonly shelves: Standing['shelves'] }[] {
  const day = (): string => localDay(here.at, here.zone);
  const found = lots.flatMap(({ lot, book }) => {
    const [first] = pastUseBy(state, lot, day, here.at);
    const standing = standings.get(lot);
    if (!first || !standing || standing.gone || !isHere(state, { lot, book }, standing.shelves, here)) return [];
    return [{ lot, useBy: first.useBy, shelves: standing.shelves }];
  });
  const listed = new Set(found.map((l) => l.lot));
  const countsAsAnother = (lot: string): boolean =>
    namedAs(state, lot).some((same) => listed.has(same) || surelyGone(state, same, here.at));
  return found
    .filter((l) => !countsAsAnother(l.lot))
    .sort((a, b) => (a.useBy < b.useBy || (a.useBy === b.useBy && a.lot < b.lot) ? -1 : 1));
}

const namedAs = (state: State, lot: string): string[] =>
  state.knows({ in: 'lotIdentified', by: 'lot', value: lot }) ? state.find('lotIdentified', 'lot', lot).flatMap((i) => i.same ?? []) : [];

function isHere(state: State, { lot, book }: MayBeHere, { inShop, onCounter }: Standing['shelves'], { site, others, at }: AtSite): boolean {
  if (onCounter.some((c) => c.site === site)) return true;
  if (book !== site) return inShop !== null && placeOf(state, lot, site) === 'shop';
  if (inShop === null || !others) return true;
  const row: Row<'lot'> | undefined = state.get('lot', lot);
  const measure = measureOf(row);
  return leftByPlace(row?.[measure] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), measure).bakehouse !== 0;
}
