import type { InspectedDeviation, InspectionView, SealBundle } from '@bakehouse/contracts';
import { deviationsOf, idsIn, idsToName, inspectionOf, lateIn, lateNeeds, PeriodRecords } from '@bakehouse/views';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books, loadState, siteNameIn } from '../../platform/ledger/index.js';
import { detailsOfSite } from '../catalogue/index.js';
import { batchStandings, doubtsAbout, heldAtSiteAndInHouse, holdingInHouse, namesOf, takenBack } from '../standing/index.js';
import { SealsService } from '../seals/index.js';
import { correctedChains } from './corrections.query.js';
import { entryFacts } from './entry-facts.query.js';
import { begunBefore, businessOf, openBefore, periodRows } from './period-rows.query.js';
import { ProblemException } from '../../platform/http/index.js';
import { leftOfLots } from './left-of-lots.query.js';
import { rowsOfDeviation } from './one-deviation.query.js';
import { recallsOf } from './recalls-of-period.query.js';
import { periodFor, type Period } from './period.js';

type PeriodRequest = Partial<Pick<Period, 'from' | 'until'>>;

/** Reads the records for an officer as of one moment, then seals their books, so that the seal covers all of them. */
@Injectable()
export class InspectionService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    private readonly seals: SealsService,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async inspect(session: SessionContext, siteId: string, request: PeriodRequest): Promise<InspectionView> {
    const site = await this.books.site(session.organisation, siteId);
    const asOf = this.clock.now().toISOString();
    const period = periodFor(request, site, session, asOf);
    const { organisation } = session;
    const books = await this.books.all(organisation);
    const read = await this.tenancy.reading(organisation, async (client) => {
      const rows = await periodRows(client, site, period);
      const { versions, truncated } = await correctedChains(client, site, period);
      const facts = await entryFacts(client, organisation, [
        ...new Set(Object.values(rows).flatMap((list) => list.map((row) => row.entry))),
      ]);
      const [makes, loads, batches] = [rows.make, rows.load, rows.batch].map((of) => of.map((row) => row.id));
      const subjects = { makes: makes ?? [], loads: loads ?? [], batches: batches ?? [] };
      const names = await namesOf(client, organisation, [...new Set([...idsToName(rows), ...idsIn(versions)])]);
      return {
        records: new PeriodRecords(site, rows, facts, names, await doubtsAbout(client, books, rows.reading), siteNameIn(books)),
        versions,
        truncated,
        takenBack: await takenBack(
          client,
          books,
          rows.deviation.map((d) => d.id),
        ),
        begunBefore: await begunBefore(client, site, period),
        openFromBefore: await openBefore(client, site, period),
        left: await leftOfLots(
          client,
          books,
          rows.hold.map((h) => h.lot),
          asOf,
        ),
        ...(await heldAtSiteAndInHouse(client, books, site, asOf)),
        late: lateIn(await loadState(client, books, (known) => lateNeeds(known, subjects)), subjects, asOf, site.zone),
        standings: await batchStandings(
          client,
          books,
          rows.batch.map((b) => b.id),
          asOf,
        ),
        details: await detailsOfSite(client, site, asOf),
        recalls: await recallsOf(client, books, site, period),
        business: await businessOf(client, organisation),
      };
    });
    const seals = [await this.seals.latest(site), await this.seals.latest(await this.books.organisation(organisation))];
    const { records, ...material } = read;
    return inspectionOf(records, { ...material, period, asOf, seals });
  }

  /** One deviation that concerns a site as the page of its period shows it, whenever and wherever it was reported: what was done and decided, by whom and why, and who closed it. */
  async deviation(session: SessionContext, siteId: string, deviation: string): Promise<InspectedDeviation> {
    const { organisation } = session;
    const site = await this.books.site(organisation, siteId);
    const asOf = this.clock.now().toISOString();
    const books = await this.books.all(organisation);
    return this.tenancy.reading(organisation, async (client) => {
      const rows = await rowsOfDeviation(client, organisation, siteId, deviation);
      const facts = await entryFacts(client, organisation, [
        ...new Set(Object.values(rows).flatMap((list) => list.map((row) => row.entry))),
      ]);
      const names = await namesOf(
        client,
        organisation,
        [...rows.deviation, ...rows.disposition].map((row) => row.subject),
      );
      const records = new PeriodRecords(site, rows, facts, names, await doubtsAbout(client, books, rows.reading), siteNameIn(books));
      const back = await takenBack(
        client,
        books,
        rows.deviation.map((d) => d.id),
      );
      const [found] = deviationsOf(records, await holdingInHouse(client, books, organisation, asOf), back);
      if (!found) throw new ProblemException('unknown-deviation');
      return found;
    });
  }

  /** The records themselves, received on these days, with the proof of each: to be checked without this service. */
  async bundle(session: SessionContext, siteId: string, request: PeriodRequest): Promise<SealBundle> {
    const site = await this.books.site(session.organisation, siteId);
    const { begins, ends } = periodFor(request, site, session, this.clock.now().toISOString());
    return this.seals.bundle(site, await this.books.organisation(session.organisation), begins, ends);
  }
}
