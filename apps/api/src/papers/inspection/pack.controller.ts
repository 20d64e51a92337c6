import { inspectionPack, paperOrder, paperSize, type InspectionPack, type PaperOrder } from '@bakehouse/contracts';
import { Controller, Get, Header, HttpCode, Param, Query, StreamableFile } from '@nestjs/common';
import { ApiAcceptedResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, type SessionContext } from '../../platform/access/index.js';
import { given, InspectionService, requestedPeriod, type RequestedPeriod } from '../../modules/inspection/index.js';
import { fileOf, pdfType } from '../file.js';
import { Printer } from '../layout/index.js';
import { PaperOrders, type Made } from '../orders/orders.js';
import { wholeSchemaOf } from '../schema.js';
import { packPaperOf } from './pack-pdf.js';

const id = z.uuid().toLowerCase();
const printed = requestedPeriod.extend({ size: paperSize.optional() });
type Printed = z.infer<typeof printed>;

/** What an officer takes away. */
@ApiTags('inspection')
@Controller('sites/:site/inspection')
export class PackController {
  constructor(
    private readonly inspections: InspectionService,
    private readonly orders: PaperOrders,
    private readonly printer: Printer,
  ) {}

  @Get('pack/order')
  @HttpCode(202)
  @Permits('view', 'inspect')
  @Exported('the inspection pack, ordered as PDF')
  @ApiOperation({ summary: 'Orders the pack to print: it is made when its turn comes' })
  @ApiAcceptedResponse({ standardSchema: paperOrder })
  order(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: printed }) requested: Printed,
    @CurrentSession() session: SessionContext,
  ): PaperOrder {
    return this.orders.order(session, () => this.made(site, requested, session));
  }

  @Get('pack.pdf')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as PDF')
  @ApiOperation({ summary: 'The same, to print and hand over' })
  @ApiProduces(pdfType)
  @ApiOkResponse({ schema: { type: 'string', format: 'binary' } })
  async pdf(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: printed }) requested: Printed,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    const { bytes, name } = await this.made(site, requested, session);
    return fileOf(bytes, pdfType, name);
  }

  @Get('pack.json')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as JSON')
  @ApiOperation({ summary: 'The same, for another computer, with its schema' })
  @Header('content-disposition', 'attachment; filename="inspection.json"')
  @ApiOkResponse({ standardSchema: inspectionPack })
  async json(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) requested: RequestedPeriod,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectionPack> {
    const inspection = await this.inspections.inspect(session, site, given(requested));
    return {
      paper: 'inspection',
      printedAt: inspection.asOf,
      printedBy: session.name,
      inspection,
      says: [...(inspection.seals[0]?.says ?? [])],
      schema: wholeSchemaOf(inspectionPack),
    };
  }

  private async made(site: string, requested: Printed, session: SessionContext): Promise<Made> {
    const view = await this.inspections.inspect(session, site, given(requested));
    const bytes = await this.printer.pdfOf(packPaperOf({ view, printedAt: view.asOf, printedBy: session.name }, requested.size));
    return { bytes, name: `inspection-${view.from}-${view.until}.pdf` };
  }
}
