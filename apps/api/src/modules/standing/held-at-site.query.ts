import type { HeldLot } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { BookRef } from '../../platform/ledger/index.js';
import { heldLots } from './held-lots.query.js';
import { namedAtSite } from './named-at-site.query.js';

/** What is on hold at one site, the newest lot first, each with everything that speaks against it. */
export async function heldAtSite(client: ClientBase, books: readonly BookRef[], site: BookRef, at: string): Promise<HeldLot[]> {
  const { held } = await heldLots(client, books, site.organisation, at);
  const named = await namedAtSite(client, site, [...held.keys()]);
  return named.map((l) => ({ ...l, concerns: [...(held.get(l.lot)?.concerns ?? [])] }));
}
