import type { InspectionView, SealBundle } from '@bakehouse/contracts';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { SealsService } from '../seals/index.js';
import { correctedChains } from './corrections.query.js';
import { entryFacts, namesOf } from './entry-facts.query.js';
import { businessOf, openBefore, periodRows } from './period-rows.query.js';
import { periodFor, type Period } from './period.js';
import { idsIn } from './view/corrections.js';
import { inspectionOf } from './view/inspection-view.js';
import { idsToName, Scene } from './view/scene.js';

type Asked = Partial<Pick<Period, 'from' | 'until'>>;

/** Reads what an officer is shown, as of one moment, and seals the books that it stands in afterwards: the seal covers all of it. */
@Injectable()
export class InspectionService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    private readonly seals: SealsService,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async inspect(session: SessionContext, siteId: string, asked: Asked): Promise<InspectionView> {
    const site = await this.books.site(session.organisation, siteId);
    const asOf = this.clock.now().toISOString();
    const period = periodFor(asked, site, session, asOf);
    const { organisation } = session;
    const read = await this.tenancy.reading(organisation, async (client) => {
      const rows = await periodRows(client, site, period);
      const { versions, truncated } = await correctedChains(client, site, period);
      const facts = await entryFacts(client, organisation, [
        ...new Set(Object.values(rows).flatMap((list) => list.map((row) => row.entry))),
      ]);
      const names = await namesOf(client, organisation, [...new Set([...idsToName(rows), ...idsIn(versions)])]);
      return {
        scene: new Scene(site, rows, facts, names),
        versions,
        truncated,
        openFromBefore: await openBefore(client, site, period),
        business: await businessOf(client, organisation),
      };
    });
    const seals = [await this.seals.latest(site), await this.seals.latest(await this.books.organisation(organisation))];
    const { scene, ...material } = read;
    return inspectionOf(scene, { ...material, period, asOf, seals });
  }

  /** The records themselves, received on these days, with the proof of each: to be checked without this service. */
  async bundle(session: SessionContext, siteId: string, asked: Asked): Promise<SealBundle> {
    const site = await this.books.site(session.organisation, siteId);
    const { begins, ends } = periodFor(asked, site, session, this.clock.now().toISOString());
    return this.seals.bundle(site, begins, ends);
  }
}
