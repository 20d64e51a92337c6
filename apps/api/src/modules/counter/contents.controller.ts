import { contentsView, type ContentsView } from '@bakehouse/contracts';
import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CounterService } from './counter.service.js';

/** As many as an address has room for. */
const most = 100;
const asked = z.object({
  lots: z
    .string()
    .regex(/^[0-9a-f-]{36}(,[0-9a-f-]{36})*$/)
    .max(37 * most)
    .meta({ description: 'ids of batches, with commas between them' }),
});

/** What food that is here contains, for those who send it out or are asked about it. */
@ApiTags('counter')
@Controller('sites/:site/contents')
export class ContentsController {
  constructor(private readonly counter: CounterService) {}

  @Get()
  @Permits('view')
  @ApiOperation({ summary: 'What these batches contain by what was used, product by product; what nobody has checked is not known' })
  @ApiOkResponse({ standardSchema: contentsView })
  async of(
    @Param('site', { schema: z.uuid() }) site: string,
    @Query({ schema: asked }) { lots }: z.infer<typeof asked>,
    @CurrentSession() session: SessionContext,
  ): Promise<ContentsView> {
    return this.counter.ofBatches(session.organisation, site, lots.split(','));
  }
}
