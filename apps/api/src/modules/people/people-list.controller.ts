import { peopleList, type PeopleList } from '@bakehouse/contracts';
import { Controller, Get, Inject } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { everybody } from './people-list.query.js';

@ApiTags('people')
@Controller('people')
export class PeopleListController {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Permits('manage.people', 'manage.access')
  @ApiOperation({ summary: 'All people who ever joined, with their permissions now' })
  @ApiOkResponse({ standardSchema: peopleList })
  list(@CurrentSession() session: SessionContext): Promise<PeopleList> {
    return this.tenancy.reading(session.organisation, (client) => everybody(client, session.organisation, this.clock.now().toISOString()));
  }
}
