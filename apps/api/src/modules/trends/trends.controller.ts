import { trend, trendBy, trendList, type Trend, type TrendList } from '@bakehouse/contracts';
import { pointMeasured } from '@bakehouse/records';
import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { requestedPeriod } from '../inspection/index.js';
import { TrendsService } from './trends.service.js';

const id = z.uuid().toLowerCase();
const listAsked = requestedPeriod.extend({ by: trendBy.default('place') });
const seriesAsked = requestedPeriod.extend({
  by: trendBy,
  of: id,
  measured: pointMeasured,
  parameter: z.string().min(1).max(80),
  point: z.string().min(1).max(80).optional(),
});

/** Readings over time, by where they were taken, by what was made, or by instrument. Anybody who may view the site. */
@ApiTags('trends')
@Controller('sites/:site/trends')
export class TrendsController {
  constructor(private readonly trends: TrendsService) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'What was read in a period, each series with how often, and how often outside its limit' })
  @ApiOkResponse({ standardSchema: trendList })
  list(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: listAsked }) asked: z.infer<typeof listAsked>,
    @CurrentSession() session: SessionContext,
  ): Promise<TrendList> {
    return this.trends.list(session, site, asked);
  }

  @Get('series')
  @Permits('view')
  @ApiOperation({ summary: 'One series: its readings with their limits, its days, what was not taken, and how it usually varies' })
  @ApiOkResponse({ standardSchema: trend })
  series(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: seriesAsked }) asked: z.infer<typeof seriesAsked>,
    @CurrentSession() session: SessionContext,
  ): Promise<Trend> {
    return this.trends.series(session, site, { ...asked, point: asked.point ?? null });
  }
}
