import type { ContentsView, CounterSites, CounterView } from '@bakehouse/contracts';
import { caution, dayBounds, siteDay } from '@bakehouse/kernel';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { contentsOf } from './contents.query.js';
import { batchesAmong, batchesOfToday } from './counter.query.js';

/** What today's products contain, by what was used: for anybody who asks at the counter. */
@Injectable()
export class CounterService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async sites(organisation: string): Promise<CounterSites> {
    const books = await this.books.all(organisation);
    return books.filter((b) => b.type === 'site').map(({ id, name }) => ({ id, name }));
  }

  /** @throws ProblemException where no site is said and there are several: an answer for another shop could hurt somebody */
  async today(organisation: string, siteAsked: string | null): Promise<CounterView> {
    const books = await this.books.all(organisation);
    const sites = await this.sites(organisation);
    if (siteAsked === null && sites.length > 1) throw new ProblemException({ problem: 'which-site', field: 'site' });
    const site = await this.books.site(organisation, siteAsked ?? sites[0]?.id ?? '');
    const now = this.clock.now().toISOString();
    const day = siteDay(now, site);
    const { from, until } = dayBounds(day, site.zone, site.dayStarts);
    const part = await this.tenancy.reading(organisation, async (client) =>
      contentsOf(client, books, site, { now, from, until }, await batchesOfToday(client, site, from, until)),
    );
    return {
      site: { id: site.id, name: site.name, zone: site.zone },
      sites,
      day,
      asOf: now,
      ...part,
      caution,
    };
  }

  /** What these batches contain by what was used, product by product, whenever they were baked. */
  async ofBatches(organisation: string, siteAsked: string, lots: readonly string[]): Promise<ContentsView> {
    const books = await this.books.all(organisation);
    const site = await this.books.site(organisation, siteAsked);
    const now = this.clock.now().toISOString();
    const { from, until } = dayBounds(siteDay(now, site), site.zone, site.dayStarts);
    const { products } = await this.tenancy.reading(organisation, async (client) =>
      contentsOf(
        client,
        books,
        site,
        { now, from, until },
        { batches: await batchesAmong(client, organisation, lots), onCounter: new Set() },
      ),
    );
    return products;
  }
}
