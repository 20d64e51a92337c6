import { inspectionPack, type InspectionPack } from '@bakehouse/contracts';
import { Injectable } from '@nestjs/common';
import type { SessionContext } from '../../../platform/access/index.js';
import { pdfOf, wholeSchemaOf } from '../../papers/index.js';
import { InspectionService } from '../inspection.service.js';
import type { Period } from '../period.js';
import { packPaperOf } from './pack-pdf.js';

type PeriodRequest = Partial<Pick<Period, 'from' | 'until'>>;

/** What the officer takes away. */
@Injectable()
export class PackService {
  constructor(private readonly inspections: InspectionService) {}

  async pdf(
    session: SessionContext,
    site: string,
    request: PeriodRequest,
  ): Promise<{ readonly bytes: Buffer } & Pick<Period, 'from' | 'until'>> {
    const view = await this.inspections.inspect(session, site, request);
    return { bytes: await pdfOf(packPaperOf({ view, printedAt: view.asOf, printedBy: session.name })), from: view.from, until: view.until };
  }

  async json(session: SessionContext, site: string, request: PeriodRequest): Promise<InspectionPack> {
    const inspection = await this.inspections.inspect(session, site, request);
    const says = inspection.seals[0]?.says ?? [];
    return {
      paper: 'inspection',
      printedAt: inspection.asOf,
      printedBy: session.name,
      inspection,
      says: [...says],
      schema: wholeSchemaOf(inspectionPack),
    };
  }
}
