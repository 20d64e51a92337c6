import { entryResults, newEntries, type EntryResult } from '@bakehouse/contracts';
import { problems } from '@bakehouse/kernel';
import { Body, Controller, HttpCode, Param, Post } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { CurrentSession, Permits, type SessionContext } from '../access/index.js';
import { entriesBodyLimit, Limits } from '../http/index.js';
import { Books, LedgerService, type Result } from '../ledger/index.js';
import { Metrics } from '../metrics/index.js';

/** The write door. Everybody who is signed on may send; each entry is checked against its own kind's permission. */
@ApiTags('entries')
@Controller()
export class EntriesController {
  constructor(
    private readonly ledger: LedgerService,
    private readonly books: Books,
    private readonly metrics: Metrics,
  ) {}

  @Post('sites/:site/entries')
  @ApiOperation({ summary: 'Records entries of a site, each by itself; sent again, they are answered as known' })
  @HttpCode(200)
  @Limits({ bodyBytes: entriesBodyLimit })
  @Permits('view')
  @ApiOkResponse({ standardSchema: entryResults })
  async atSite(
    @Param('site') site: string,
    @Body({ schema: newEntries }) entries: unknown[],
    @CurrentSession() session: SessionContext,
  ): Promise<EntryResult[]> {
    return this.record(await this.books.site(session.organisation, site), session.askerAt(site), entries);
  }

  @Post('organisation/entries')
  @ApiOperation({ summary: 'The same for the whole organisation: people, materials, formulas, plans, cases' })
  @HttpCode(200)
  @Limits({ bodyBytes: entriesBodyLimit })
  @Permits('view')
  @ApiOkResponse({ standardSchema: entryResults })
  async inOrganisation(
    @Body({ schema: newEntries }) entries: unknown[],
    @CurrentSession() session: SessionContext,
  ): Promise<EntryResult[]> {
    return this.record(await this.books.organisation(session.organisation), session.askerAt(null), entries);
  }

  private async record(...asked: Parameters<LedgerService['writer']['record']>): Promise<EntryResult[]> {
    const results = await this.ledger.writer.record(...asked);
    for (const result of results) {
      this.metrics.entry(result.as);
      if (result.as === 'refused') this.metrics.problem(result.problem);
    }
    return results.map(onTheWire);
  }
}

function onTheWire(result: Result): EntryResult {
  if (result.as !== 'refused') return result;
  const { title, detail } = problems[result.problem];
  return { ...result, title, detail };
}
