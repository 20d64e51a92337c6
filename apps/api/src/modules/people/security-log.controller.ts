import { securityEvents, viewings, type SecurityEvents, type Viewings } from '@bakehouse/contracts';
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiQuery, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { viewingsBefore } from './viewings.query.js';
import { securityEventsBefore, securityNotices } from './security-log.query.js';

@ApiTags('people')
@Controller()
export class SecurityLogController {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get('security-events')
  @Permits('manage.people')
  @ApiOperation({
    summary: 'What happened at the door: sign-ons, wrong PINs, changes of PINs and tablets, refusals, exports; a hundred at a time',
  })
  @ApiQuery({ name: 'before', required: false, description: 'the `next` of the page before' })
  @ApiOkResponse({ standardSchema: securityEvents })
  list(
    @Query('before', { schema: z.uuid().toLowerCase().optional() }) before: string | undefined,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<SecurityEvents> {
    return this.tenancy.reading(organisation, async (client) => ({
      ...(await securityEventsBefore(client, organisation, before ?? null)),
      notices: await securityNotices(client, organisation, this.clock.now().toISOString()),
    }));
  }

  @Get('viewings')
  @Permits('manage.people')
  @ApiOperation({ summary: 'What inspectors were shown and took away; a hundred at a time' })
  @ApiQuery({ name: 'before', required: false, description: 'the `next` of the page before' })
  @ApiOkResponse({ standardSchema: viewings })
  viewings(
    @Query('before', { schema: z.uuid().toLowerCase().optional() }) before: string | undefined,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<Viewings> {
    return this.tenancy.reading(organisation, (client) => viewingsBefore(client, organisation, before ?? null));
  }
}
