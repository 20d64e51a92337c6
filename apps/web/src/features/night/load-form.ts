import type { Row, Snapshot } from '@bakehouse/records';
import type { RunView } from '@bakehouse/views';
import { placesOf } from '../../shared/in-force';

/** Ovens, each with its decks. */
export function ovensOf(snapshot: Snapshot): { readonly oven: Row<'place'>; readonly decks: readonly Row<'place'>[] }[] {
  const decks = placesOf(snapshot, ['deck']);
  return placesOf(snapshot, ['oven']).map((oven) => ({ oven, decks: decks.filter((d) => d.within === oven.id) }));
}

/** One place that a load can go to: a deck, or an oven without decks. */
export interface Spot {
  readonly id: string;
  readonly oven: string;
  readonly deck: string | null;
  readonly name: string;
}
export const spotsOf = (snapshot: Snapshot): Spot[] =>
  ovensOf(snapshot).flatMap(({ oven, decks }): Spot[] =>
    decks.length === 0
      ? [{ id: oven.id, oven: oven.id, deck: null, name: oven.name }]
      : decks.map((deck) => ({ id: deck.id, oven: oven.id, deck: deck.id, name: deck.name })),
  );

/** How a product is baked by its formula: in an oven of this name where the formula names it, else in the first it names. */
export function settingFor(
  version: Row<'formulaVersion'> | undefined,
  product: string,
  ovenName: string,
): { readonly celsius: number; readonly minutes: number } | undefined {
  const ovens = version?.content.products.find((p) => p.product === product)?.ovens ?? [];
  const same = (a: string, b: string): boolean => a.toLowerCase().includes(b.toLowerCase()) || b.toLowerCase().includes(a.toLowerCase());
  return ovens.find((o) => same(ovenName, o.oven)) ?? ovens[0];
}

/** Pieces that have not been in an oven yet. */
export const leftToLoad = (run: RunView): number => Math.max(0, run.pieces - run.loaded);
