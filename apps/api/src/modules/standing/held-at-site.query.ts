import type { ConcernView, HeldLot } from '@bakehouse/contracts';
import { placeOf } from '@bakehouse/records';
import { standingView } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { siteNameIn, type BookInfo, type BookRef } from '../../platform/ledger/index.js';
import { heldLots, type HeldLots } from './held-lots.query.js';
import { namedAtSite, type NamedAtSite } from './named-at-site.query.js';

/** What is on hold at a site, as a list names it, with all that the open concerns of the house reach and the records that say so. */
export type HeldHere = HeldLots & NamedAtSite;

/**
 * What is on hold at one site: the site's own lots, and those of another site that it was sent as a shop of the house, that stand on its counter, or that it
 * recorded something about. Which of several shops something was sent to is not recorded: each of them is told to look.
 */
export async function heldHere(client: ClientBase, books: readonly BookRef[], site: BookRef, at: string): Promise<HeldHere> {
  const all = await heldLots(client, books, site.organisation, at);
  const inFront = [...all.held].flatMap(([lot, { shelves }]) => {
    const sentHere = shelves.inShop !== null && placeOf(all.state, lot, site.id) === 'shop';
    return sentHere || shelves.onCounter.some((c) => c.site === site.id) ? [lot] : [];
  });
  return { ...all, ...(await namedAtSite(client, site, { ...all, inFront })) };
}

/** The same as a list, the newest lot first, each with everything that speaks against it. */
export async function heldAtSite(client: ClientBase, books: readonly BookInfo[], site: BookRef, at: string): Promise<HeldLot[]> {
  return listed(await heldHere(client, books, site, at), books);
}

/** That list, and everything that holds food anywhere in the house: what was reported at one site may hold food at another. */
export async function heldAtSiteAndInHouse(
  client: ClientBase,
  books: readonly BookInfo[],
  site: BookRef,
  at: string,
): Promise<{ readonly onHold: HeldLot[]; readonly holding: ConcernView[] }> {
  const found = await heldHere(client, books, site, at);
  return { onHold: listed(found, books), holding: concernsIn(found) };
}

/** Everything that holds food anywhere in the house. */
export async function holdingInHouse(
  client: ClientBase,
  books: readonly BookRef[],
  organisation: string,
  at: string,
): Promise<ConcernView[]> {
  return concernsIn(await heldLots(client, books, organisation, at));
}

const concernsIn = ({ held }: Pick<HeldLots, 'held'>): ConcernView[] => [...held.values()].flatMap((s) => s.concerns);

function listed({ held, here }: HeldHere, books: readonly BookInfo[]): HeldLot[] {
  const siteName = siteNameIn(books);
  return here.flatMap((l) => {
    const standing = held.get(l.lot);
    return standing ? [{ ...l, ...standingView(standing, siteName) }] : [];
  });
}
