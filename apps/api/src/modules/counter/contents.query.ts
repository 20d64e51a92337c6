import { counterPart } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { BookInfo } from '../../platform/ledger/index.js';
import { heldAtSite } from '../standing/index.js';
import { houseBooks, makesOf, openings, type batchesOfToday } from './counter.query.js';
import { rowsOfUse } from './rows-of-use.query.js';

/** What these batches contain by what was used, product by product, and what of them is on hold. */
export async function contentsOf(
  client: ClientBase,
  books: readonly BookInfo[],
  site: BookInfo,
  { now, from, until }: Readonly<Record<'now' | 'from' | 'until', string>>,
  { batches, onCounter }: Awaited<ReturnType<typeof batchesOfToday>>,
): Promise<ReturnType<typeof counterPart>> {
  const { organisation } = site;
  return counterPart({
    now,
    site: site.id,
    sites: books.filter((b) => b.type === 'site'),
    onHold: await heldAtSite(client, books, site, now),
    from,
    batches,
    makes: await makesOf(client, organisation, [...new Set(batches.map((b) => b.make))]),
    onCounter,
    ...(await rowsOfUse(
      client,
      organisation,
      batches.map((b) => b.id),
    )),
    ...(await openings(client, site, from, until)),
    ...(await houseBooks(client, organisation)),
  });
}
