import { foundLots, traceView, type TraceView } from '@bakehouse/contracts';
import { hazard } from '@bakehouse/records';
import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { findLots } from './find-lots.query.js';
import { TraceService } from './trace.service.js';

const question = z.object({ direction: z.enum(['forward', 'backward']).default('forward'), hazard: hazard.optional() });
const search = z.object({ words: z.string().trim().min(1).max(120), limit: z.coerce.number().int().min(1).max(200).default(50) });

@ApiTags('trace')
@Controller('lots')
export class TraceController {
  constructor(
    private readonly traces: TraceService,
    private readonly tenancy: Tenancy,
    private readonly books: Books,
  ) {}

  @Get()
  @ApiOperation({ summary: 'Lots by a part of their code or of a name, the newest first' })
  @Permits('view')
  @ApiOkResponse({ standardSchema: foundLots })
  async find(
    @Query({ schema: search }) { words, limit }: z.infer<typeof search>,
    @CurrentSession() session: SessionContext,
  ): Promise<z.infer<typeof foundLots>> {
    const seen = (await this.books.all(session.organisation)).filter((b) => session.permissionsAt(b.id).has('view'));
    const sought = { words, limit, books: seen.map((b) => b.id) };
    const rows = await this.tenancy.reading(session.organisation, (client) => findLots(client, session.organisation, sought));
    return rows.map(({ book, ...row }) => ({ ...row, site: seen.find((b) => b.id === book)?.name ?? '' }));
  }

  @Get(':lot/trace')
  @ApiOperation({ summary: 'What a lot went into and came of, with shares, balances, and where everything is now' })
  @Permits('view')
  @ApiOkResponse({ standardSchema: traceView })
  trace(
    @Param('lot', { schema: z.uuid().toLowerCase() }) lot: string,
    @Query({ schema: question }) q: z.infer<typeof question>,
    @CurrentSession() session: SessionContext,
  ): Promise<TraceView> {
    return this.traces.trace(session, { suspects: [lot], direction: q.direction, hazard: q.hazard ?? null, actionLevelPpt: null });
  }
}
