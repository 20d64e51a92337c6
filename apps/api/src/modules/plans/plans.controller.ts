import { planOverview, planView, type PlanOverview, type PlanView } from '@bakehouse/contracts';
import { planOverviewOf, planViewOf } from '@bakehouse/views';
import { Controller, Get, Inject, Param } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { planVersions } from './plans.query.js';

@ApiTags('plans')
@Controller('plans')
export class PlansController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'The HACCP plan in force at each site, and all earlier versions' })
  @ApiOkResponse({ standardSchema: planOverview })
  async list(@CurrentSession() session: SessionContext): Promise<PlanOverview> {
    const sites = await this.sitesOf(session);
    const rows = await this.tenancy.reading(session.organisation, (client) => planVersions(client, session.organisation));
    return planOverviewOf(rows, sites, this.clock.now().toISOString());
  }

  @Get(':plan')
  @Permits('view')
  @ApiOperation({ summary: 'One version of a plan with its control points' })
  @ApiOkResponse({ standardSchema: planView })
  async show(@Param('plan', { schema: z.uuid() }) id: string, @CurrentSession() session: SessionContext): Promise<PlanView> {
    const sites = await this.sitesOf(session);
    const rows = await this.tenancy.reading(session.organisation, (client) => planVersions(client, session.organisation));
    const row = rows.find((r) => r.id === id);
    if (!row) throw new ProblemException('unknown-plan');
    return planViewOf(rows, row, sites, this.clock.now().toISOString());
  }

  private async sitesOf(session: SessionContext): Promise<{ site: string; name: string }[]> {
    const books = await this.books.all(session.organisation);
    return books.filter((b) => b.type === 'site' && session.permissionsAt(b.id).has('view')).map(({ id, name }) => ({ site: id, name }));
  }
}
