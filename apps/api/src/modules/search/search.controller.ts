import { found, type Found } from '@bakehouse/contracts';
import { Controller, Get, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { findLots } from '../trace/index.js';
import { findDeliveries, findParties, findPeople } from './found.query.js';

const asked = z.object({ words: z.string().trim().min(1).max(120), limit: z.coerce.number().int().min(1).max(50).default(8) });
/** As for the list of people. */
const seesPeople = ['manage.people', 'manage.access'] as const;

/** One question for everything that has a code, a number or a name. What somebody may not see is not looked at. */
@ApiTags('search')
@Controller('search')
export class SearchController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
  ) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'Lots, deliveries, suppliers, customers and people by a part of a code, a number or a name: so many of each' })
  @ApiOkResponse({ standardSchema: found })
  async find(@Query({ schema: asked }) { words, limit }: z.infer<typeof asked>, @CurrentSession() session: SessionContext): Promise<Found> {
    const { organisation } = session;
    const seen = (await this.books.all(organisation)).filter((b) => session.permissionsAt(b.id).has('view'));
    const name = (book: string): string => seen.find((b) => b.id === book)?.name ?? '';
    const sought = { words, limit, books: seen.map((b) => b.id) };
    const mayPeople = seesPeople.some((p) => session.permissionsAt(null).has(p));
    return this.tenancy.reading(organisation, async (client) => {
      const deliveries = await findDeliveries(client, organisation, sought);
      const parties = await findParties(client, organisation, sought);
      const people = mayPeople ? await findPeople(client, organisation, sought) : [];
      const lots = await findLots(client, organisation, sought); // last: it turns off ways of reading for the rest of the transaction
      return {
        lots: lots.map(({ book, ...lot }) => ({ ...lot, site: name(book) })),
        deliveries: deliveries.map(({ book, ...d }) => ({ ...d, site: book, siteName: name(book) })),
        parties: [...parties],
        people: [...people],
      };
    });
  }
}
