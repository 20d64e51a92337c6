import { openRecall, recallList, recallView, type RecallView } from '@bakehouse/contracts';
import { Body, Controller, Get, HttpCode, Inject, Param, Post } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { heldLots, toReach } from '../standing/index.js';
import { allCases } from './recalls.query.js';
import { RecallsService } from './recalls.service.js';

@ApiTags('recalls')
@Controller('recalls')
export class RecallsController {
  constructor(
    private readonly recalls: RecallsService,
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /** Opening twice under one id opens one case. */
  @Post()
  @ApiOperation({ summary: 'Opens a recall case, or a practice, on lots: traces them and freezes the scope' })
  @HttpCode(200)
  @Permits('decide.recall')
  @ApiOkResponse({ standardSchema: recallView })
  open(@Body({ schema: openRecall }) asked: z.infer<typeof openRecall>, @CurrentSession() session: SessionContext): Promise<RecallView> {
    return this.recalls.open(session, asked);
  }

  @Post(':recall/extend')
  @HttpCode(200)
  @Permits('decide.recall')
  @ApiOperation({ summary: 'Takes the lots that came into reach since the scope was frozen, and are still in the house, into the case' })
  @ApiOkResponse({ standardSchema: recallView })
  extend(
    @Param('recall', { schema: z.uuid().toLowerCase() }) recall: string,
    @CurrentSession() session: SessionContext,
  ): Promise<RecallView> {
    return this.recalls.extend(session, recall);
  }

  @Get()
  @ApiOperation({ summary: 'Recall cases, the newest first' })
  @Permits('view')
  @ApiOkResponse({ standardSchema: recallList })
  async list(@CurrentSession() session: SessionContext): Promise<z.infer<typeof recallList>> {
    const books = await this.books.all(session.organisation);
    const now = this.clock.now().toISOString();
    const { organisation } = session;
    const { rows, held, left } = await this.tenancy.reading(organisation, async (client) => {
      const cases = await allCases(client, organisation);
      const open = cases.filter((c) => c.closedAt === null).map((c) => c.id);
      return {
        rows: cases,
        held: (await heldLots(client, books, organisation, now)).held,
        left: await toReach(client, books, organisation, open),
      };
    });
    const concerns = [...held.values()].flatMap((standing) => [...new Set(standing.concerns.map((c) => c.id))]);
    return rows.map(({ id, openedAt, hazard, hazardName, practice, closedAt, lots }) => ({
      id,
      openedAt,
      hazard,
      hazardName,
      practice,
      closedAt,
      lots,
      held: concerns.filter((concern) => concern === id).length,
      toReach: left.get(id) ?? null,
    }));
  }

  @Get(':recall')
  @ApiOperation({ summary: 'A case with its scope, and what changed since it was frozen' })
  @Permits('view')
  @ApiOkResponse({ standardSchema: recallView })
  show(
    @Param('recall', { schema: z.uuid().toLowerCase() }) recall: string,
    @CurrentSession() session: SessionContext,
  ): Promise<RecallView> {
    return this.recalls.show(session, recall);
  }
}
