import { nightView, type NightView } from '@bakehouse/contracts';
import { calendarDay, caution, dayBounds, siteDay } from '@bakehouse/kernel';
import { rowsBehind } from '@bakehouse/records';
import { Controller, Get, Inject, Param, Query, Req, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books, bookSizes, Unchanged } from '../../platform/ledger/index.js';
import { heldLots } from '../standing/index.js';
import { nightRows, type NightRows } from './night.query.js';

const query = z.object({ day: calendarDay.optional() });

/** One screen of the night: one request. */
@ApiTags('night')
@Controller('sites/:site/night')
export class NightController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    private readonly unchanged: Unchanged,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Permits('view')
  @ApiOkResponse({ standardSchema: nightView })
  async night(
    @Param('site', { schema: z.uuid().toLowerCase() }) id: string,
    @Query({ schema: query }) { day }: z.infer<typeof query>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<NightView | undefined> {
    const may = session.permissionsAt(id);
    return this.unchanged.unless(request, reply, session.organisation, may, () => this.view(session, id, day));
  }

  private async view(session: SessionContext, id: string, asked: string | undefined): Promise<NightView> {
    const site = await this.books.site(session.organisation, id);
    const books = await this.books.all(session.organisation);
    const now = this.clock.now().toISOString();
    const day = asked ?? siteDay(now, site);
    const { from, until } = dayBounds(day, site.zone, site.dayStarts, { before: 2, after: 1 });
    return this.tenancy.reading(session.organisation, async (client) => {
      const rows = await nightRows(client, site, from, until);
      const { held, reached, state } = await heldLots(client, books, session.organisation, now);
      const here = (rows.lot ?? []).flatMap((l) => (reached.has(l.id) ? [l.id] : []));
      const plain = together(rows, rowsBehind(state, [...held.keys(), ...here], reached));
      const sizes = await bookSizes(client, session.organisation);
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

/** Rows of both, each once: what a night needs, and what speaks against any of it, however long ago it came. */
function together(some: NightRows, more: NightRows): Record<string, { id: string; [field: string]: unknown }[]> {
  const names = new Set([...Object.keys(some), ...Object.keys(more)]);
  const all = (of: NightRows, name: string) => Object.entries(of).find(([one]) => one === name)?.[1] ?? [];
  return Object.fromEntries(
    [...names].map((name) => [name, [...new Map([...all(more, name), ...all(some, name)].map((r) => [r.id, { ...r }])).values()]]),
  );
}
