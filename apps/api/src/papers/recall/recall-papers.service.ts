import { recallPaper, type PaperSize, type RecallPaper } from '@bakehouse/contracts';
import { siteDay } from '@bakehouse/kernel';
import { letsSee } from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books, type BookInfo } from '../../platform/ledger/index.js';
import { RecallsService } from '../../modules/recalls/index.js';
import { SealsService } from '../../modules/seals/index.js';
import { Printer, sizeOfZone } from '../layout/index.js';
import { wholeSchemaOf } from '../schema.js';
import { paperDepartures, type CasePaper } from './case-paper.js';
import { departuresOf, flowsWithin, headOfCase, lotDetails } from './recall-paper.query.js';
import { recallPaperOf, type PartOf } from './recall-pdf.js';
import { recallXlsx } from './recall-xlsx.js';

/** The papers of a recall case, made from the records on each request. */
@Injectable()
export class RecallPapersService {
  constructor(
    private readonly recalls: RecallsService,
    private readonly seals: SealsService,
    private readonly books: Books,
    private readonly tenancy: Tenancy,
    private readonly printer: Printer,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /** An order is refused at once where the house has no such case. @throws ProblemException */
  requireKnown(session: SessionContext, recall: string): Promise<void> {
    return this.recalls.requireKnown(session, recall);
  }

  async pdf(session: SessionContext, recall: string, part: PartOf, size?: PaperSize): Promise<Buffer> {
    const paper = await this.paper(session, recall);
    return this.printer.pdfOf(recallPaperOf(paper, part, size ?? sizeOfZone(paper.zone)));
  }

  async xlsx(session: SessionContext, recall: string): Promise<Buffer> {
    return recallXlsx(await this.paper(session, recall));
  }

  async json(session: SessionContext, recall: string): Promise<RecallPaper> {
    const { business, zone, printedAt, frozenUnder, recordedUnder, ...paper } = await this.paper(session, recall);
    return {
      paper: 'recall',
      business,
      practice: paper.recall.practice,
      printedAt,
      zone,
      caution: paper.recall.trace.caution,
      recall: paper.recall,
      frozenUnder: [...frozenUnder],
      recordedUnder,
      schema: wholeSchemaOf(recallPaper),
    };
  }

  private async paper(session: SessionContext, id: string): Promise<CasePaper> {
    const books = await this.books.all(session.organisation);
    const house = await this.books.organisation(session.organisation);
    // The scope and what is printed beside it are of one moment.
    const { recall, ...read } = await this.tenancy.reading(session.organisation, async (client) => {
      const shown = await this.recalls.shown(client, session, id);
      this.requireSight(session, shown.openedAt, house);
      if (shown.trace.hidden.length > 0) throw new ProblemException('not-all-visible');
      const lots = shown.trace.lots.map((l) => l.id);
      return {
        recall: shown,
        head: await headOfCase(client, session.organisation, id),
        details: await lotDetails(client, session.organisation, lots),
        flows: await flowsWithin(client, session.organisation, lots),
        departures: await departuresOf(client, session.organisation, lots),
      };
    });
    const frozen = recall.frozenAt.flatMap(({ book, size }) => {
      const found = books.find((b) => b.id === book);
      return found ? [this.seals.ofSize(found, size)] : [];
    });
    return {
      recall,
      business: read.head?.business ?? '',
      openedBy: read.head?.openedBy ?? null,
      details: new Map(read.details.map((d) => [d.id, d])),
      flows: read.flows,
      departures: paperDepartures(read.departures, recall.trace),
      frozenUnder: await Promise.all(frozen),
      recordedUnder: await this.seals.latest(house),
      printedAt: this.clock.now().toISOString(),
      printedBy: session.name,
      zone: house.zone,
      clockOf: (site) => books.find((b) => b.name === site) ?? house,
      nameOfBook: (book) => books.find((b) => b.id === book)?.name ?? '',
    };
  }

  /** An inspector may have the papers of a case opened on a day that one of their accesses covers. Where part of it is at a site that the reader may not look at, there is no paper. */
  private requireSight(session: SessionContext, openedAt: string, house: BookInfo): void {
    if (session.permissionsAt(null).has('export')) return;
    const [day, today] = [siteDay(openedAt, house), siteDay(this.clock.now().toISOString(), house)];
    if (!session.inspections.some((access) => letsSee(access, day, today))) throw new ProblemException('not-permitted');
  }
}
