import { nightView, type NightView } from '@bakehouse/contracts';
import { calendarDay, caution, dayBounds, siteDay } from '@bakehouse/kernel';
import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books, bookSizes } from '../../platform/ledger/index.js';
import { nightRows } from './night.query.js';

const asked = z.object({ day: calendarDay.optional() });

/** One screen of the night: one request. */
@ApiTags('night')
@Controller('sites/:site/night')
export class NightController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Permits('view')
  @ApiOkResponse({ standardSchema: nightView })
  async night(
    @Param('site', { schema: z.uuid().toLowerCase() }) id: string,
    @Query({ schema: asked }) query: z.infer<typeof asked>,
    @CurrentSession() session: SessionContext,
  ): Promise<NightView> {
    const site = await this.books.site(session.organisation, id);
    const now = this.clock.now().toISOString();
    const day = query.day ?? siteDay(now, site);
    const { from, until } = dayBounds(day, site.zone, site.dayStarts, { before: 2, after: 1 });
    return this.tenancy.reading(session.organisation, async (client) => {
      const rows = await nightRows(client, site, from, until);
      const sizes = await bookSizes(client, session.organisation);
      const plain = Object.fromEntries(Object.entries(rows).map(([name, list]) => [name, [...list]]));
      return {
        site: { id: site.id, name: site.name, zone: site.zone, dayStarts: site.dayStarts },
        day,
        asOf: now,
        sizes: sizes.filter((s) => s.book === site.id || s.type === 'organisation').map(({ book, name, size }) => ({ book, name, size })),
        rows: plain,
        caution,
      };
    });
  }
}
