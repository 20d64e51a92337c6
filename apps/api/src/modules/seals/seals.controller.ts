import { sealKey, sealView, type SealKeyView, type SealView } from '@bakehouse/contracts';
import { Controller, Get, Param } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, Public, Viewed, type SessionContext } from '../../platform/access/index.js';
import { Books } from '../../platform/ledger/index.js';
import { SealsService } from './seals.service.js';

const id = z.uuid().toLowerCase();
const size = z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER);

/** Seals of a site's book, of the organisation's, and the key that anybody checks them with. */
@ApiTags('seals')
@Controller()
export class SealsController {
  constructor(
    private readonly seals: SealsService,
    private readonly books: Books,
  ) {}

  @Get('sites/:site/seal')
  @ApiOperation({ summary: 'The latest seal of a site’s records; makes one where entries came since' })
  @Permits('view', 'inspect')
  @Viewed('the seal')
  @ApiOkResponse({ standardSchema: sealView })
  async latestOfSite(@Param('site', { schema: id }) site: string, @CurrentSession() session: SessionContext): Promise<SealView> {
    return this.seals.latest(await this.books.site(session.organisation, site));
  }

  @Get('sites/:site/seals/:size')
  @ApiOperation({ summary: 'The seal of a site’s first so many records' })
  @Permits('view', 'inspect')
  @Viewed('an earlier seal')
  @ApiOkResponse({ standardSchema: sealView })
  async ofSite(
    @Param('site', { schema: id }) site: string,
    @Param('size', { schema: size }) at: number,
    @CurrentSession() session: SessionContext,
  ): Promise<SealView> {
    return this.seals.made(await this.books.site(session.organisation, site), at);
  }

  @Get('organisation/seal')
  @ApiOperation({ summary: 'The latest seal of the organisation’s records' })
  @Permits('view', 'inspect')
  @Viewed('the seal of the organisation’s book')
  @ApiOkResponse({ standardSchema: sealView })
  async latestOfOrganisation(@CurrentSession() session: SessionContext): Promise<SealView> {
    return this.seals.latest(await this.books.organisation(session.organisation));
  }

  @Get('organisation/seals/:size')
  @ApiOperation({ summary: 'The seal of the organisation’s first so many records' })
  @Permits('view', 'inspect')
  @Viewed('an earlier seal of the organisation’s book')
  @ApiOkResponse({ standardSchema: sealView })
  async ofOrganisation(@Param('size', { schema: size }) at: number, @CurrentSession() session: SessionContext): Promise<SealView> {
    return this.seals.made(await this.books.organisation(session.organisation), at);
  }

  /** The key does not tell whether there is such a book. */
  @Get('seal-keys/:book')
  @ApiOperation({ summary: 'The public keys that the seals of a book are checked with' })
  @Public()
  @ApiOkResponse({ standardSchema: sealKey })
  key(@Param('book', { schema: id }) book: string): Promise<SealKeyView> {
    return this.seals.keyOf(book.toLowerCase());
  }
}
