import { openSessions, sessionsEnd, type OpenSessions } from '@bakehouse/contracts';
import { Body, Controller, Get, HttpCode, Inject, Param, Post, Req } from '@nestjs/common';
import { ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import {
  ACCESS_SETTINGS,
  CurrentSession,
  fromOf,
  Pins,
  SecurityLog,
  Sessions,
  SignedOn,
  type AccessSettings,
  type SessionContext,
} from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { openSessionsOf } from './open-sessions.query.js';

const id = z.uuid().toLowerCase();

/** Where somebody is signed on: one's own sessions, or anybody's for those who look after people. */
@ApiTags('people')
@Controller('people/:person/sessions')
export class OpenSessionsController {
  constructor(
    private readonly pins: Pins,
    private readonly sessions: Sessions,
    private readonly security: SecurityLog,
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(ACCESS_SETTINGS) private readonly settings: AccessSettings,
  ) {}

  @Get()
  @SignedOn()
  @ApiOperation({ summary: 'Where a person is signed on now: yourself, or anybody as an administrator' })
  @ApiOkResponse({ standardSchema: openSessions })
  async list(@Param('person', { schema: id }) person: string, @CurrentSession() session: SessionContext): Promise<OpenSessions> {
    await this.mayLookAfter(session, person);
    const { organisation } = session;
    const open = await this.tenancy.reading(organisation, (client) =>
      openSessionsOf(client, organisation, person, this.clock.now(), this.settings),
    );
    return open.map((one) => ({ ...one, current: one.id === session.session }));
  }

  @Post('end')
  @HttpCode(204)
  @SignedOn()
  @ApiOperation({ summary: 'Sign a person off everywhere but here, with the PIN that you have now' })
  @ApiNoContentResponse()
  async end(
    @Param('person', { schema: id }) person: string,
    @Body({ schema: sessionsEnd }) { currentPin }: z.infer<typeof sessionsEnd>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    await this.mayLookAfter(session, person);
    await this.pins.provePresent(session, currentPin, request.ip, person === session.person ? { given: true } : undefined);
    const { organisation } = session;
    await this.tenancy.inOrganisation(organisation, async (client) => {
      await this.sessions.endAll(client, organisation, { person }, 'ended-elsewhere', session.session);
      const from = fromOf(session, request.ip);
      await this.security.note(client, organisation, { what: 'sessions-ended', person: session.person, about: person, from });
    });
  }

  private async mayLookAfter(session: SessionContext, person: string): Promise<void> {
    if (person === session.person) return;
    session.require('manage.people', null);
    if ((await this.pins.has(session.organisation, person)) === undefined)
      throw new ProblemException({ problem: 'unknown-person', field: 'person' });
  }
}
