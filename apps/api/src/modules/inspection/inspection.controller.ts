import {
  inspectionPack,
  inspectionView,
  sealBundle,
  type InspectionPack,
  type InspectionView,
  type SealBundle,
} from '@bakehouse/contracts';
import { Controller, Get, Header, Param, Query, StreamableFile } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, Viewed, type SessionContext } from '../../platform/access/index.js';
import { fileOf, pdfType } from '../papers/index.js';
import { InspectionService } from './inspection.service.js';
import { PackService } from './pack/pack.service.js';
import { requestedPeriod } from './period.js';

const id = z.uuid().toLowerCase();
type PeriodRequest = z.infer<typeof requestedPeriod>;

/** The records for an officer: today by default, or up to 31 days. Anybody who may view the site may show it; an inspector sees the days of their access. */
@ApiTags('inspection')
@Controller('sites/:site/inspection')
export class InspectionController {
  constructor(
    private readonly inspections: InspectionService,
    private readonly packs: PackService,
  ) {}

  @Get()
  @Permits('view', 'inspect')
  @Viewed('the records of a period')
  @ApiOperation({ summary: 'The plan, production, readings, deviations and corrective actions, receipts and releases of a period' })
  @ApiOkResponse({ standardSchema: inspectionView })
  show(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) request: PeriodRequest,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectionView> {
    return this.inspections.inspect(session, site, given(request));
  }

  @Get('pack.pdf')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as PDF')
  @ApiOperation({ summary: 'The same as a PDF, to print and hand over' })
  @ApiProduces(pdfType)
  @ApiOkResponse({ schema: { type: 'string', format: 'binary' } })
  async pdf(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) request: PeriodRequest,
    @CurrentSession() session: SessionContext,
  ): Promise<StreamableFile> {
    const { bytes, from, until } = await this.packs.pdf(session, site, given(request));
    return fileOf(bytes, pdfType, `inspection-${from}-${until}.pdf`);
  }

  @Get('pack.json')
  @Permits('view', 'inspect')
  @Exported('the inspection pack, as JSON')
  @ApiOperation({ summary: 'The same as JSON, with its schema' })
  @Header('content-disposition', 'attachment; filename="inspection.json"')
  @ApiOkResponse({ standardSchema: inspectionPack })
  json(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) request: PeriodRequest,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectionPack> {
    return this.packs.json(session, site, given(request));
  }

  @Get('bundle.json')
  @Permits('view', 'inspect')
  @Exported('the sealed records of a period')
  @ApiOperation({ summary: 'The records received in a period, byte for byte, each with the proof of its place under the seal' })
  @Header('content-disposition', 'attachment; filename="bundle.json"')
  @ApiOkResponse({ standardSchema: sealBundle })
  bundle(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) request: PeriodRequest,
    @CurrentSession() session: SessionContext,
  ): Promise<SealBundle> {
    return this.inspections.bundle(session, site, given(request));
  }
}

/** Without the keys that were not given. */
const given = ({ from, until }: PeriodRequest): { from?: string; until?: string } => ({
  ...(from === undefined ? {} : { from }),
  ...(until === undefined ? {} : { until }),
});
