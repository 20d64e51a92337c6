import { inspectionPack, type InspectionPack } from '@bakehouse/contracts';
import { Controller, Get, Header, Param, Query, StreamableFile } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, type SessionContext } from '../../platform/access/index.js';
import { given, requestedPeriod, type RequestedPeriod } from '../../modules/inspection/index.js';
import { fileOf, pdfType } from '../file.js';
import { PackService } from './pack.service.js';

const id = z.uuid().toLowerCase();

/** What an officer takes away. */
@ApiTags('inspection')
@Controller('sites/:site/inspection')
export class PackController {
  constructor(private readonly packs: PackService) {}

  @Get('pack.pdf')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as PDF')
  @ApiOperation({ summary: 'The same, to print and hand over' })
  @ApiProduces(pdfType)
  @ApiOkResponse({ schema: { type: 'string', format: 'binary' } })
  async pdf(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) requested: RequestedPeriod,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    const { bytes, from, until } = await this.packs.pdf(session, site, given(requested));
    return fileOf(bytes, pdfType, `inspection-${from}-${until}.pdf`);
  }

  @Get('pack.json')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as JSON')
  @ApiOperation({ summary: 'The same, for another computer, with its schema' })
  @Header('content-disposition', 'attachment; filename="inspection.json"')
  @ApiOkResponse({ standardSchema: inspectionPack })
  json(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) requested: RequestedPeriod,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectionPack> {
    return this.packs.json(session, site, given(requested));
  }
}
