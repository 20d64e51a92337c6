import { paperOrder, paperSize, recallPaper, recallPart, type PaperOrder, type RecallPaper, type RecallPart } from '@bakehouse/contracts';
import { Controller, Get, Header, HttpCode, Param, Query, StreamableFile } from '@nestjs/common';
import { ApiAcceptedResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, type SessionContext } from '../../platform/access/index.js';
import { fileOf, pdfType, xlsxType } from '../file.js';
import { PaperOrders } from '../orders/orders.js';
import { RecallPapersService } from './recall-papers.service.js';

const id = z.uuid().toLowerCase();
const onSheets = z.strictObject({ size: paperSize.optional() });
type OnSheets = z.infer<typeof onSheets>;
const ordered = onSheets
  .extend({ part: recallPart.optional(), customer: id.optional().meta({ description: 'whose notice, for the part “customer”' }) })
  .refine((o) => (o.part === 'customer') === (o.customer !== undefined), {
    path: ['customer'],
    error: 'a customer, for the part “customer” alone',
  });
type Ordered = z.infer<typeof ordered>;
const names: Readonly<Record<RecallPart, string>> = {
  all: 'recall',
  notice: 'recall-notice',
  contacts: 'recall-contacts',
  customer: 'recall-customer-notice',
  public: 'recall-public-notice',
};
const nameOf = (part: RecallPart, recall: string): string => `${names[part]}-${recall}.pdf`;
const file = { schema: { type: 'string' as const, format: 'binary' } };

/** What leaves the house about a recall case. */
@ApiTags('papers')
@Controller('recalls/:recall/papers')
export class RecallPapersController {
  constructor(
    private readonly papers: RecallPapersService,
    private readonly orders: PaperOrders,
  ) {}

  @Get('order')
  @HttpCode(202)
  @Permits('export', 'inspect')
  @Exported('the papers of a recall case, ordered as PDF')
  @ApiOperation({ summary: 'Orders the papers to print, all of them or one: they are made when their turn comes' })
  @ApiAcceptedResponse({ standardSchema: paperOrder })
  async order(
    @Param('recall', { schema: id }) recall: string,
    @Query({ schema: ordered }) { part = 'all', customer, size }: Ordered,
    @CurrentSession() session: SessionContext,
  ): Promise<PaperOrder> {
    await this.papers.requireKnown(session, recall);
    const make = async () => ({ bytes: await this.papers.pdf(session, recall, { part, customer }, size), name: nameOf(part, recall) });
    return this.orders.order(session, make, true);
  }

  @Get('recall.pdf')
  @Permits('export', 'inspect')
  @Exported('the papers of a recall case, as PDF')
  @ApiOperation({ summary: 'All papers of a case for the house, to print: the notice, the contact list and the sheets behind' })
  @ApiProduces(pdfType)
  @ApiOkResponse(file)
  async pdf(
    @Param('recall', { schema: id }) recall: string,
    @Query({ schema: onSheets }) { size }: OnSheets,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    return fileOf(await this.papers.pdf(session, recall, { part: 'all' }, size), pdfType, nameOf('all', recall));
  }

  @Get('notice.pdf')
  @Permits('export', 'inspect')
  @Exported('the notice of a recall case, as PDF')
  @ApiOperation({ summary: 'What each customer is sent: it names no other customer' })
  @ApiProduces(pdfType)
  @ApiOkResponse(file)
  async notice(
    @Param('recall', { schema: id }) recall: string,
    @Query({ schema: onSheets }) { size }: OnSheets,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    return fileOf(await this.papers.pdf(session, recall, { part: 'notice' }, size), pdfType, nameOf('notice', recall));
  }

  @Get('contacts.pdf')
  @Permits('export', 'inspect')
  @Exported('the contact list of a recall case, as PDF')
  @ApiOperation({ summary: 'The contact list to call from, in calling order' })
  @ApiProduces(pdfType)
  @ApiOkResponse(file)
  async contacts(
    @Param('recall', { schema: id }) recall: string,
    @Query({ schema: onSheets }) { size }: OnSheets,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    return fileOf(await this.papers.pdf(session, recall, { part: 'contacts' }, size), pdfType, nameOf('contacts', recall));
  }

  @Get('recall.xlsx')
  @Permits('export', 'inspect')
  @Exported('the papers of a recall case, as XLSX')
  @ApiOperation({ summary: 'The contact list, lots, uses and dispatches, balances and flows, as a spreadsheet' })
  @ApiProduces(xlsxType)
  @ApiOkResponse(file)
  async xlsx(@Param('recall', { schema: id }) recall: string, @CurrentSession() session: SessionContext): Promise<StreamableFile> {
    return fileOf(await this.papers.xlsx(session, recall), xlsxType, `recall-${recall}.xlsx`);
  }

  @Get('recall.json')
  @Permits('export', 'inspect')
  @Exported('the papers of a recall case, as JSON')
  @ApiOperation({ summary: 'The case with its seals and its schema' })
  @Header('content-disposition', 'attachment; filename="recall.json"')
  @ApiOkResponse({ standardSchema: recallPaper })
  json(@Param('recall', { schema: id }) recall: string, @CurrentSession() session: SessionContext): Promise<RecallPaper> {
    return this.papers.json(session, recall);
  }
}
