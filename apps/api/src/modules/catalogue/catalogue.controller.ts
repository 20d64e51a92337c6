import {
  ifInstrumentOut as ifInstrumentOutView,
  instrumentList,
  materialList,
  partyList,
  placeList,
  siteDetails,
  type IfInstrumentOut,
  type InstrumentList,
  type MaterialList,
  type PartyList,
  type PlaceList,
  type SiteDetails,
} from '@bakehouse/contracts';
import { materialsOf, partiesOf } from '@bakehouse/views';
import { Controller, Get, Inject, Param } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { Books } from '../../platform/ledger/index.js';
import { newestVersions } from '../formulas/index.js';
import { ifInstrumentOut } from './if-out.query.js';
import { detailsOfSite } from './site-details.query.js';
import { instrumentRows, partyRows, placeRows, specificationRows } from './catalogue.query.js';

/** Contacts are for those who manage suppliers and customers, and for those who handle a recall. */
const seesContacts = ['manage.catalogue', 'decide.recall'] as const;

@ApiTags('catalogue')
@Controller()
export class CatalogueController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get('catalogue/materials')
  @Permits('view')
  @ApiOperation({ summary: 'Materials with what they contain and their specifications' })
  @ApiOkResponse({ standardSchema: materialList })
  async materials(@CurrentSession() { organisation }: SessionContext): Promise<MaterialList> {
    return this.tenancy.reading(organisation, async (client) => {
      const formulas = await newestVersions(client, organisation);
      const retired = new Set(formulas.filter((f) => f.retired !== null).map((f) => f.formula));
      return materialsOf(await specificationRows(client, organisation), { formulas, retired }, this.clock.now().toISOString());
    });
  }

  @Get('catalogue/parties')
  @Permits('view')
  @ApiOperation({ summary: 'Suppliers and customers; their contacts where the role allows it' })
  @ApiOkResponse({ standardSchema: partyList })
  async parties(@CurrentSession() session: SessionContext): Promise<PartyList> {
    const rows = await this.tenancy.reading(session.organisation, (client) => partyRows(client, session.organisation));
    return partiesOf(
      rows,
      seesContacts.some((p) => session.permissionsAt(null).has(p)),
    );
  }

  @Get('sites/:site/details')
  @Permits('view')
  @ApiOperation({ summary: 'Where a site is, what it is registered as, and its food-safety authority' })
  @ApiOkResponse({ standardSchema: siteDetails })
  async details(@Param('site', { schema: z.uuid() }) id: string, @CurrentSession() { organisation }: SessionContext): Promise<SiteDetails> {
    const site = await this.books.site(organisation, id);
    const now = this.clock.now().toISOString();
    return this.tenancy.reading(organisation, (client) => detailsOfSite(client, site, now));
  }

  @Get('sites/:site/places')
  @Permits('view')
  @ApiOperation({ summary: 'Equipment, stations, stores and vessels of a site' })
  @ApiOkResponse({ standardSchema: placeList })
  async places(@Param('site', { schema: z.uuid() }) id: string, @CurrentSession() { organisation }: SessionContext): Promise<PlaceList> {
    const site = await this.books.site(organisation, id);
    return this.tenancy.reading(organisation, (client) => placeRows(client, site));
  }

  @Get('sites/:site/instruments')
  @Permits('view')
  @ApiOperation({ summary: 'The measuring instruments of a site, with the last check of each' })
  @ApiOkResponse({ standardSchema: instrumentList })
  async instruments(
    @Param('site', { schema: z.uuid() }) id: string,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<InstrumentList> {
    const site = await this.books.site(organisation, id);
    return this.tenancy.reading(organisation, (client) => instrumentRows(client, site));
  }

  @Get('sites/:site/instruments/:instrument/if-out')
  @Permits('view')
  @ApiOperation({ summary: 'Which readings and batches would be in doubt if an instrument went out of use now, unchecked' })
  @ApiOkResponse({ standardSchema: ifInstrumentOutView })
  async ifOut(
    @Param('site', { schema: z.uuid() }) id: string,
    @Param('instrument', { schema: z.uuid() }) instrument: string,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<IfInstrumentOut> {
    const site = await this.books.site(organisation, id);
    const books = await this.books.all(organisation);
    return this.tenancy.reading(organisation, (client) => ifInstrumentOut(client, books, site, instrument, this.clock.now().toISOString()));
  }
}
