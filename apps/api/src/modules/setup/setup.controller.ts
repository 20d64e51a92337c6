import { setup, type Setup } from '@bakehouse/contracts';
import { Controller, Get, Param } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { SetupService } from './setup.service.js';

@ApiTags('setup')
@Controller('sites/:site/setup')
export class SetupController {
  constructor(private readonly setups: SetupService) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'What is missing from nothing to a first released batch, in order, and who may do it' })
  @ApiOkResponse({ standardSchema: setup })
  show(@Param('site', { schema: z.uuid() }) site: string, @CurrentSession() session: SessionContext): Promise<Setup> {
    return this.setups.of(session, site);
  }
}
