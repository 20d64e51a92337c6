import type { Trend, TrendBy, TrendList } from '@bakehouse/contracts';
import { trendOf } from '@bakehouse/views';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { doubtsAbout, namesOf } from '../standing/index.js';
import type { RequestedPeriod } from '../inspection/index.js';
import { daysFor } from './period.js';
import { notTakenOf, readingsOf, seriesOf, type SeriesAsked } from './trends.query.js';

/** More kinds of readings than a person looks through. */
const maxSeries = 500;
/** One in ten minutes for more than a year. */
const maxReadings = 60_000;

@Injectable()
export class TrendsService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async list({ organisation }: SessionContext, siteId: string, asked: RequestedPeriod & { readonly by: TrendBy }): Promise<TrendList> {
    const site = await this.books.site(organisation, siteId);
    const { from, until, ...between } = daysFor(asked, site, this.clock.now().toISOString());
    const all = await this.tenancy.reading(organisation, (client) => seriesOf(client, site, asked.by, between));
    const series = all.slice(0, maxSeries).map((s) => ({ by: asked.by, ...s }));
    return { zone: site.zone, from, until, series, leftOut: all.length - series.length };
  }

  /** @throws ProblemException where nothing of this series was read in the period, or more than can be drawn */
  async series({ organisation }: SessionContext, siteId: string, asked: RequestedPeriod & SeriesAsked): Promise<Trend> {
    const site = await this.books.site(organisation, siteId);
    const books = await this.books.all(organisation);
    const { from, until, ...between } = daysFor(asked, site, this.clock.now().toISOString());
    const { by, of, measured, parameter, point } = asked;
    const found = await this.tenancy.reading(organisation, async (client) => {
      const readings = await readingsOf(client, site, asked, between, maxReadings + 1);
      if (readings.length > maxReadings) throw tooMany();
      const notTaken = await notTakenOf(client, site, asked, between);
      const newest = readings.at(-1)?.point ?? null;
      const named = [newest, ...notTaken.map((n) => n.subject), ...readings.flatMap((r) => [r.subject, r.instrument])];
      const names = await namesOf(client, organisation, [...new Set(named.flatMap((id) => id ?? []))]);
      const doubts = await doubtsAbout(client, books, readings);
      return trendOf({
        site: { zone: site.zone, dayStarts: site.dayStarts },
        from,
        until,
        series: { by, of, measured, parameter, point },
        readings,
        notTaken,
        doubts,
        names,
        pointName: newest === null ? null : (names.get(newest) ?? null),
      });
    });
    if (!found) throw nothingRead();
    return found;
  }
}

const tooMany = (): ProblemException =>
  new ProblemException({
    problem: 'unacceptable-value',
    field: 'from',
    acceptable: 'a shorter period: this one holds more readings than can be drawn',
  });
const nothingRead = (): ProblemException =>
  new ProblemException({
    problem: 'unacceptable-value',
    field: 'of',
    acceptable: 'something that was read in these days: choose other days, or go back to the list',
  });
