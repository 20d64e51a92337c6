import { inspectionPack, type InspectionPack } from '@bakehouse/contracts';
import type { Period } from '@bakehouse/views';
import { Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { pdfOf } from '../layout/index.js';
import { wholeSchemaOf } from '../schema.js';
import { InspectionService } from '../../modules/inspection/index.js';
import { packPaperOf } from './pack-pdf.js';

/** What an officer takes away. */
@Injectable()
export class PackService {
  constructor(private readonly inspections: InspectionService) {}

  async pdf(
    session: SessionContext,
    site: string,
    days: Partial<Pick<Period, 'from' | 'until'>>,
  ): Promise<{ readonly bytes: Buffer } & Pick<Period, 'from' | 'until'>> {
    const view = await this.inspections.inspect(session, site, days);
    return { bytes: await pdfOf(packPaperOf({ view, printedAt: view.asOf, printedBy: session.name })), from: view.from, until: view.until };
  }

  async json(session: SessionContext, site: string, days: Partial<Pick<Period, 'from' | 'until'>>): Promise<InspectionPack> {
    const inspection = await this.inspections.inspect(session, site, days);
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
