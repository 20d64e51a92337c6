import { headsDiffer, signedHeads, type HeadsDiffer, type SignedHeads } from '@bakehouse/contracts';
import { Body, Controller, Get, HttpCode, Param, Post, Query, Req } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { Limits, ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { HeadsService } from './heads.service.js';

const id = z.uuid().toLowerCase();
const size = z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).optional();
/** How many entries of each book the asker saw before. */
const seen = z.object({ site: size, organisation: size });

/** A tablet tells each break once, until it was heard: more from one address are not tablets. */
const reportsAMinute = 30;

/** What a tablet asks to see that the records go on from those that it saw, and where it says that they do not. */
@ApiTags('seals')
@Controller('sites/:site/signed-heads')
export class HeadsController {
  constructor(
    private readonly heads: HeadsService,
    private readonly books: Books,
  ) {}

  @Get()
  @ApiOperation({
    summary:
      'The heads of the site’s book and the organisation’s as they stand, signed, each with the proof that it goes on from a size that was seen',
  })
  @Permits('view')
  @ApiOkResponse({ standardSchema: signedHeads })
  async signed(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: seen }) of: z.infer<typeof seen>,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<SignedHeads> {
    return this.heads.signed([
      [await this.books.site(organisation, site), of.site],
      [await this.books.organisation(organisation), of.organisation],
    ]);
  }

  @Post('differ')
  @HttpCode(204)
  @Limits({ perMinute: reportsAMinute })
  @ApiOperation({ summary: 'A tablet says that the records do not go on from those that it saw: noted for the administrator' })
  @Permits('view')
  async differ(
    @Param('site', { schema: id }) site: string,
    @Body({ schema: headsDiffer }) report: HeadsDiffer,
    @CurrentSession() session: SessionContext,
    @Req() { ip }: FastifyRequest,
  ): Promise<void> {
    const books = [await this.books.site(session.organisation, site), await this.books.organisation(session.organisation)];
    const book = books.find((one) => one.id === report.book);
    if (!book) throw new ProblemException('not-found');
    await this.heads.differs(book, report, session, ip);
  }
}
