import { paperOrder, recallPaper, type PaperOrder, type RecallPaper } from '@bakehouse/contracts';
import { Controller, Get, Header, HttpCode, Param, StreamableFile } from '@nestjs/common';
import { ApiAcceptedResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, type SessionContext } from '../../platform/access/index.js';
import { fileOf, pdfType, xlsxType } from '../file.js';
import { PaperOrders } from '../orders/orders.js';
import { RecallPapersService } from './recall-papers.service.js';

const id = z.uuid().toLowerCase();
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
  @ApiOperation({ summary: 'Orders the papers to print: they are made when their turn comes' })
  @ApiAcceptedResponse({ standardSchema: paperOrder })
  async order(@Param('recall', { schema: id }) recall: string, @CurrentSession() session: SessionContext): Promise<PaperOrder> {
    await this.papers.requireKnown(session, recall);
    return this.orders.order(session, async () => ({ bytes: await this.papers.pdf(session, recall), name: `recall-${recall}.pdf` }), true);
  }

  @Get('recall.pdf')
  @Permits('export', 'inspect')
  @Exported('the papers of a recall case, as PDF')
  @ApiOperation({ summary: 'The notice, the contact list and the other papers of a case, to print' })
  @ApiProduces(pdfType)
  @ApiOkResponse(file)
  async pdf(@Param('recall', { schema: id }) recall: string, @CurrentSession() session: SessionContext): Promise<StreamableFile> {
    return fileOf(await this.papers.pdf(session, recall), pdfType, `recall-${recall}.pdf`);
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
