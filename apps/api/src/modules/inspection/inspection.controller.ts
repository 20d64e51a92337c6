import {
  inspectedDeviation,
  inspectionView,
  sealBundle,
  type InspectedDeviation,
  type InspectionView,
  type SealBundle,
} from '@bakehouse/contracts';
import { Controller, Get, Header, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Exported, Permits, Viewed, type SessionContext } from '../../platform/access/index.js';
import { InspectionService } from './inspection.service.js';
import { given, requestedPeriod, type RequestedPeriod } from './period.js';

const id = z.uuid().toLowerCase();

/** The records for an officer: today by default, or up to 31 days. Anybody who may view the site may show it; an inspector sees the days of their access. */
@ApiTags('inspection')
@Controller('sites/:site/inspection')
export class InspectionController {
  constructor(private readonly inspections: InspectionService) {}

  @Get()
  @Permits('view', 'inspect')
  @Viewed('the records of a period')
  @ApiOperation({ summary: 'The plan, production, readings, deviations and corrective actions, receipts and releases of a period' })
  @ApiOkResponse({ standardSchema: inspectionView })
  show(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) requested: RequestedPeriod,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectionView> {
    return this.inspections.inspect(session, site, given(requested));
  }

  @Get('deviations/:deviation')
  @Permits('view')
  @ApiOperation({ summary: 'One deviation: what was done and decided about it, by whom and why, and who closed it' })
  @ApiOkResponse({ standardSchema: inspectedDeviation })
  deviation(
    @Param('site', { schema: id }) site: string,
    @Param('deviation', { schema: id }) deviation: string,
    @CurrentSession() session: SessionContext,
  ): Promise<InspectedDeviation> {
    return this.inspections.deviation(session, site, deviation);
  }

  @Get('bundle.json')
  @Permits('view', 'inspect')
  @Exported('the sealed records of a period')
  @ApiOperation({ summary: 'The records received in a period, byte for byte, each with the proof of its place under the seal' })
  @Header('content-disposition', 'attachment; filename="bundle.json"')
  @ApiOkResponse({ standardSchema: sealBundle })
  bundle(
    @Param('site', { schema: id }) site: string,
    @Query({ schema: requestedPeriod }) requested: RequestedPeriod,
    @CurrentSession() session: SessionContext,
  ): Promise<SealBundle> {
    return this.inspections.bundle(session, site, given(requested));
  }
}
