import { counterSites, counterView, type CounterSites, type CounterView } from '@bakehouse/contracts';
import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { LRUCache } from 'lru-cache';
import * as z from 'zod';
import { Public } from '../../platform/access/index.js';
import { Limits } from '../../platform/http/index.js';
import { Unchanged } from '../../platform/ledger/index.js';
import { OrganisationChoice } from '../people/index.js';
import { CounterService } from './counter.service.js';

const asked = z.object({ organisation: z.uuid().optional() });

/** Anybody may ask, from one address so often: dozens of counters behind one router, and no more than that. */
const perMinute = 300;
/** Everybody hears of an entry at once, and asks at once: the work is done for the first of them. */
const sharedMs = 2_000;

/** For the counter, without sign-on: today's products, what they contain and what of them is on hold, and nothing else of the house. */
@ApiTags('counter')
@Controller('counter')
export class CounterController {
  private readonly shared = new LRUCache<string, CounterView, { readonly organisation: string; readonly site: string | null }>({
    max: 32,
    ttl: sharedMs,
    fetchMethod: (_tag, _before, { context: { organisation, site } }) => this.counter.today(organisation, site),
  });

  constructor(
    private readonly counter: CounterService,
    private readonly organisation: OrganisationChoice,
    private readonly unchanged: Unchanged,
  ) {}

  @Get()
  @Public()
  @Limits({ perMinute })
  @ApiOperation({ summary: 'Today’s products and allergens at the device’s site, or the only one' })
  @ApiOkResponse({ standardSchema: counterView })
  async here(
    @Query({ schema: asked }) q: z.infer<typeof asked>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<CounterView | undefined> {
    const { organisation, device } = await this.organisation.of(request, q.organisation);
    const site = device?.site ?? null;
    return this.today(request, reply, organisation, site);
  }

  @Get('sites')
  @Public()
  @Limits({ perMinute })
  @ApiOperation({ summary: 'The sites to choose from' })
  @ApiOkResponse({ standardSchema: counterSites })
  async sites(@Query({ schema: asked }) q: z.infer<typeof asked>, @Req() request: FastifyRequest): Promise<CounterSites> {
    const { organisation } = await this.organisation.of(request, q.organisation);
    return this.counter.sites(organisation);
  }

  @Get(':site')
  @Public()
  @Limits({ perMinute })
  @ApiOperation({ summary: 'Today’s products and allergens at a site' })
  @ApiOkResponse({ standardSchema: counterView })
  async at(
    @Param('site', { schema: z.uuid() }) site: string,
    @Query({ schema: asked }) q: z.infer<typeof asked>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<CounterView | undefined> {
    const { organisation } = await this.organisation.of(request, q.organisation);
    return this.today(request, reply, organisation, site);
  }

  private today(request: FastifyRequest, reply: FastifyReply, organisation: string, site: string | null): Promise<CounterView | undefined> {
    return this.unchanged.unless(request, reply, organisation, ['counter', site ?? ''], (tag) =>
      this.shared.forceFetch(tag, { context: { organisation, site } }),
    );
  }
}
