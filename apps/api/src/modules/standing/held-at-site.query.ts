import type { HeldLot } from '@bakehouse/contracts';
import { placeOf } from '@bakehouse/records';
import { standingView } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { BookRef } from '../../platform/ledger/index.js';
import { heldLots } from './held-lots.query.js';
import { namedAtSite } from './named-at-site.query.js';

/**
 * What is on hold at one site, the newest lot first, each with everything that speaks against it: the site's own lots, and those of another site that it was
 * sent as a shop of the house or that stand on its counter. Which of several shops something was sent to is not recorded: each of them is told to look.
 */
export async function heldAtSite(client: ClientBase, books: readonly BookRef[], site: BookRef, at: string): Promise<HeldLot[]> {
  const { held, state } = await heldLots(client, books, site.organisation, at);
  const here = [...held].flatMap(([lot, { shelves }]) => {
    const sentHere = shelves.inShop !== null && placeOf(state, lot, site.id) === 'shop';
    return sentHere || shelves.onCounter.some((c) => c.site === site.id) ? [lot] : [];
  });
  const named = await namedAtSite(client, site, [...held.keys()], here);
  return named.flatMap((l) => {
    const standing = held.get(l.lot);
    return standing ? [{ ...l, ...standingView(standing) }] : [];
  });
}
