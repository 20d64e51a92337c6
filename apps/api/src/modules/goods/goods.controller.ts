import { deliveries, openThings, type Deliveries, type OpenThings } from '@bakehouse/contracts';
import { dayBounds, daysAfter, localDay, siteDay } from '@bakehouse/kernel';
import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { doubtsAbout, heldAtSite, pastUseByAtSite, standingOf } from '../standing/index.js';
import { deliveriesBetween, openAtSite, type Measured } from './goods.query.js';

const id = z.uuid();
const asked = z.object({ from: z.iso.date().optional(), until: z.iso.date().optional() });
/** As many days as one answer holds; what is older is asked for in parts. */
const maxDays = 31;

/** What came in at a site, and what waits there for somebody. */
@ApiTags('goods')
@Controller('sites/:site')
export class GoodsController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get('deliveries')
  @Permits('view')
  @ApiOperation({ summary: 'Deliveries with their lines, for at most 31 days; by default the last 31' })
  @ApiOkResponse({ standardSchema: deliveries })
  async deliveries(
    @Param('site', { schema: id }) of: string,
    @Query({ schema: asked }) q: z.infer<typeof asked>,
    @CurrentSession() session: SessionContext,
  ): Promise<Deliveries> {
    const site = await this.books.site(session.organisation, of);
    const last = q.until ?? siteDay(this.clock.now().toISOString(), site);
    const longest = daysAfter(last, 1 - maxDays);
    const first = q.from ?? longest;
    if (first > last || first < longest)
      throw new ProblemException({
        problem: 'unacceptable-value',
        field: 'from',
        acceptable: `a day not after “until”, and at most ${maxDays} days together`,
      });
    const { from } = dayBounds(first, site.zone, site.dayStarts);
    const { until } = dayBounds(last, site.zone, site.dayStarts);
    const books = await this.books.all(session.organisation);
    return this.tenancy.reading(session.organisation, async (client) => {
      const found = await deliveriesBetween(client, site, from, until);
      const lots = found.flatMap((d) => d.lines.map((l) => l.lot));
      const { standings } = await standingOf(client, books, lots, this.clock.now().toISOString());
      const concerns = (lot: string) => [...(standings.get(lot)?.concerns ?? [])];
      const read = found.flatMap((d) => d.lines.flatMap((l) => l.temperature ?? []));
      const doubts = await doubtsAbout(client, books, read);
      const temperature = ({ id: reading, figure, unit, measured, verdict, class: of, limit, corrected }: Measured) => ({
        ...{ figure, unit, measured, verdict, class: of, limit, corrected },
        doubt: doubts.get(reading) ?? null,
      });
      return found.map((d) => ({
        ...d,
        lines: d.lines.map((l) => ({
          ...l,
          temperature: l.temperature && temperature(l.temperature),
          concerns: concerns(l.lot),
        })),
      }));
    });
  }

  @Get('open')
  @Permits('view')
  @ApiOperation({ summary: 'Lots not identified, what is on hold or past its use-by date, and entries that wait or were refused' })
  @ApiOkResponse({ standardSchema: openThings })
  async open(@Param('site', { schema: id }) of: string, @CurrentSession() session: SessionContext): Promise<OpenThings> {
    const site = await this.books.site(session.organisation, of);
    const books = await this.books.all(session.organisation);
    const now = this.clock.now().toISOString();
    return this.tenancy.reading(session.organisation, async (client) => ({
      ...(await openAtSite(client, site, now)),
      held: await heldAtSite(client, books, site, now),
      pastUseBy: await pastUseByAtSite(client, books, site, localDay(now, site.zone), now),
    }));
  }
}
