import { stockLeft, type StockLeft } from '@bakehouse/contracts';
import { Controller, Get, Inject, Param } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import type { LeftInLot } from './carried-over.js';
import { leftInLots } from './left-in-lots.query.js';
import { lotsInStock } from './stock.query.js';

/** Of lots that nobody ever counts nobody knows that they are gone. */
const most = 1_000;

/** A tablet holds what happened in the last days; what is left of a sack that came weeks ago takes all that was ever taken from it. */
@ApiTags('night')
@Controller('sites/:site/stock')
export class StockController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'What is left of each lot that came or was made for later and may still be here, by all records' })
  @ApiOkResponse({ standardSchema: stockLeft })
  async left(@Param('site', { schema: z.uuid() }) of: string, @CurrentSession() session: SessionContext): Promise<StockLeft> {
    const site = await this.books.site(session.organisation, of);
    const books = await this.books.all(session.organisation);
    const at = this.clock.now().toISOString();
    return this.tenancy.reading(session.organisation, async (client) => {
      const all = await lotsInStock(client, site);
      const lots = all.slice(0, most);
      const left = await leftInLots(client, books, lots, at);
      return { lots: lots.map((lot) => ({ lot, ...inContract(left.get(lot)) })), leftOut: all.length - lots.length };
    });
  }
}

const inContract = (left: LeftInLot | undefined) => ({ leftMg: left?.leftMg ?? null, perhapsMg: left?.perhapsMg ?? null });
