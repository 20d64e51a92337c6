import { nightView, type NightView } from '@bakehouse/contracts';
import { calendarDay, caution, dayBounds, siteDay } from '@bakehouse/kernel';
import { rowsBehind } from '@bakehouse/records';
import { Controller, Get, Inject, Param, Query, Req, Res } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { LRUCache } from 'lru-cache';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books, Unchanged } from '../../platform/ledger/index.js';
import { heldHere, takenBack } from '../standing/index.js';
import { carriedOver, weighedLots } from './carried-over.js';
import { leftInLots } from './left-in-lots.query.js';
import { nightRows, type NightRows } from './night.query.js';
import { Versions, type PlainRows, type Version } from './versions.js';

const query = z.object({
  day: calendarDay.optional(),
  /** The `version` of an answer that the asker holds: where it is known here still, only what differs from it is answered. */
  since: z.string().max(40).optional(),
});

type Whole = Omit<NightView, 'asOf' | 'since' | 'rows' | 'gone' | 'version'> & { readonly now: Version };
interface NightOf {
  readonly organisation: string;
  readonly site: string;
  readonly day: string | undefined;
}
/** All tablets of a house hear of an entry at once, and ask at once: the work is done for the first of them. */
const sharedMs = 2_000;

/** One screen of the night: one request. */
@ApiTags('night')
@Controller('sites/:site/night')
export class NightController {
  private readonly versions = new Versions();
  private readonly shared = new LRUCache<string, Whole, NightOf>({
    max: 8,
    ttl: sharedMs,
    fetchMethod: (_tag, _before, { context }) => this.whole(context),
  });

  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    private readonly unchanged: Unchanged,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @ApiOperation({
    summary: 'What a tablet works with: what is under way, still here or recent, or what changed since the version it holds',
  })
  @Permits('view')
  @ApiOkResponse({ standardSchema: nightView })
  async night(
    @Param('site', { schema: z.uuid().toLowerCase() }) id: string,
    @Query({ schema: query }) { day, since }: z.infer<typeof query>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<NightView | undefined> {
    const { organisation } = session;
    const of = ['night', id, day ?? '', ...session.permissionsAt(id)];
    return this.unchanged.unless(request, reply, organisation, of, async (tag) => {
      const asOf = this.clock.now().toISOString();
      const { now, ...view } = await this.shared.forceFetch(tag, { context: { organisation, site: id, day } });
      return { ...view, asOf, version: now.version, ...this.versions.changes(now, since) };
    });
  }

  private async whole({ organisation, site: id, day: asked }: NightOf): Promise<Whole> {
    const site = await this.books.site(organisation, id);
    const books = await this.books.all(organisation);
    const now = this.clock.now().toISOString();
    const day = asked ?? siteDay(now, site);
    const { from, until } = dayBounds(day, site.zone, site.dayStarts, { before: 2, after: 1 });
    return this.tenancy.reading(organisation, async (client) => {
      const { rows, leftOut, sizes } = await nightRows(client, site, from, until);
      const { here, alike, own, reached, state } = await heldHere(client, books, site, now);
      const shown = [...here.map((l) => l.lot), ...alike, ...(rows.lot ?? []).flatMap((l) => (reached.has(l.id) ? [l.id] : []))];
      const held = together(rows, rowsBehind(state, shown, reached));
      // No other is named: who may not look at another site hears nothing of its lots. Of those that are here for what came of them, a tablet cannot say that they are gone.
      const heldElsewhere = (held['lot'] ?? []).flatMap(({ id }) => (reached.has(id) && !own.has(id) ? [{ id }] : []));
      const back = await takenBack(
        client,
        books,
        (held['deviation'] ?? []).map((d) => d.id),
      );
      const left = await leftInLots(client, books, weighedLots(held), now);
      return {
        site: { id: site.id, name: site.name, zone: site.zone, dayStarts: site.dayStarts },
        day,
        sizes: sizes.filter((s) => s.book === site.id || s.type === 'organisation').map(({ book, name, size }) => ({ book, name, size })),
        leftOut,
        now: this.versions.of(
          {
            ...held,
            carriedOver: carriedOver(held, left, now).map((c) => ({ ...c })),
            takenBack: back.map((t) => ({ ...t })),
            heldElsewhere,
          },
          `${organisation} ${site.id}`,
        ),
        caution,
      };
    });
  }
}

/** Rows of both, each once and in the order of their ids: what a night needs, and what speaks against any of it, however long ago it came. */
function together(some: NightRows, more: NightRows): PlainRows {
  const names = new Set([...Object.keys(some), ...Object.keys(more)]);
  const all = (of: NightRows, name: string) => Object.entries(of).find(([one]) => one === name)?.[1] ?? [];
  return Object.fromEntries(
    [...names].map((name) => {
      const each = new Map([...all(more, name), ...all(some, name)].map((r) => [r.id, { ...r }]));
      return [name, [...each.values()].sort((a, b) => (a.id < b.id ? -1 : 1))];
    }),
  );
}
