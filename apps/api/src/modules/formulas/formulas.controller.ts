import {
  formulaRequest,
  formulaList,
  formulaView,
  waterRequest,
  waterView,
  type FormulaRequest,
  type FormulaList,
  type FormulaView,
  type WaterRequest,
  type WaterView,
} from '@bakehouse/contracts';
import { formulaListOf, formulaViewOf, wantedOf, waterViewOf } from '@bakehouse/views';
import { Controller, Get, Inject, Param, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books } from '../../platform/ledger/index.js';
import { newestVersions, specifications, versionsOf } from './formulas.query.js';
import { placeAt, recentMixes } from './water.query.js';

const uuid = z.uuid();

@ApiTags('formulas')
@Controller()
export class FormulasController {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get('formulas')
  @Permits('view')
  @ApiOperation({ summary: 'All formulas, in force and retired' })
  @ApiOkResponse({ standardSchema: formulaList })
  async list(@CurrentSession() { organisation }: SessionContext): Promise<FormulaList> {
    return formulaListOf(await this.tenancy.reading(organisation, (client) => newestVersions(client, organisation)));
  }

  @Get('formulas/:formula')
  @Permits('view')
  @ApiOperation({
    summary: 'One formula: its versions, percentages, total formula, allergens; scaled to pieces or to a weight on request',
  })
  @ApiOkResponse({ standardSchema: formulaView })
  async show(
    @Param('formula', { schema: uuid }) formula: string,
    @Query({ schema: formulaRequest }) request: FormulaRequest,
    @CurrentSession() { organisation }: SessionContext,
  ): Promise<FormulaView> {
    return this.tenancy.reading(organisation, async (client) => {
      const versions = await versionsOf(client, organisation, formula);
      const version = request.number === undefined ? versions[0] : versions.find((v) => v.number === request.number);
      if (!version) throw new ProblemException({ problem: 'unknown-formula', field: versions.length > 0 ? 'number' : 'formula' });
      const wanted = wantedOf(version.content, request);
      if (!wanted.ok) throw new ProblemException(wanted);
      const reference = {
        versions: await newestVersions(client, organisation),
        specifications: await specifications(client, organisation),
      };
      return formulaViewOf({ versions, version, reference, wanted: wanted.value, now: this.clock.now().toISOString() });
    });
  }

  @Get('sites/:site/formulas/:formula/water')
  @Permits('view')
  @ApiOperation({ summary: 'The water temperature for a dough, with the friction factor of this mixer' })
  @ApiOkResponse({ standardSchema: waterView })
  async water(
    @Param('site', { schema: uuid }) id: string,
    @Param('formula', { schema: uuid }) formula: string,
    @Query({ schema: waterRequest }) request: WaterRequest,
    @CurrentSession() session: SessionContext,
  ): Promise<WaterView> {
    const site = await this.books.site(session.organisation, id);
    const answer = await this.tenancy.reading(session.organisation, async (client) => {
      const [newest] = await versionsOf(client, session.organisation, formula);
      if (!newest) throw new ProblemException({ problem: 'unknown-formula', field: 'formula' });
      const mixer = await placeAt(client, site, request.mixer);
      if (!mixer) throw new ProblemException({ problem: 'unknown-place', field: 'mixer' });
      const mixes = await recentMixes(client, site, formula, mixer.id);
      const types = new Map((await newestVersions(client, session.organisation)).map((v) => [v.formula, v.type]));
      return waterViewOf({ formula, content: newest.content, mixer, mixes, request, typeOf: (of) => types.get(of) });
    });
    if (!answer.ok) throw new ProblemException(answer);
    return answer.value;
  }
}
