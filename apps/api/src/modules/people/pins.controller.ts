import { newPin } from '@bakehouse/contracts';
import { Body, Controller, HttpCode, Param, Post, Req } from '@nestjs/common';
import { ApiNoContentResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, fromOf, Pins, SecurityLog, Sessions, SignedOn, type SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';

@ApiTags('people')
@Controller('people')
export class PinsController {
  constructor(
    private readonly pins: Pins,
    private readonly security: SecurityLog,
    private readonly sessions: Sessions,
    private readonly tenancy: Tenancy,
  ) {}

  @Post(':person/pin')
  @HttpCode(204)
  @SignedOn()
  @ApiOperation({ summary: 'Set a PIN, your own or another person’s as an administrator; with the PIN that you have now' })
  @ApiNoContentResponse()
  async set(
    @Param('person', { schema: z.uuid().toLowerCase() }) person: string,
    @Body({ schema: newPin }) { pin, currentPin }: z.infer<typeof newPin>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    const { organisation } = session;
    const own = person === session.person;
    if (!own) session.require('manage.people', null);
    const has = await this.pins.has(organisation, person);
    if (has === undefined) throw new ProblemException({ problem: 'unknown-person', field: 'person' });
    await this.pins.provePresent(session, currentPin, request.ip);
    const from = fromOf(session, request.ip);
    const hash = await this.pins.hashFor(pin, from);
    await this.tenancy.inOrganisation(organisation, async (client) => {
      await this.pins.store(client, organisation, person, hash, session.person);
      await this.security.note(client, organisation, { what: 'pin-set', person: session.person, about: person, from });
      await this.sessions.endAll(client, organisation, { person }, 'pin-changed', own ? session.session : null);
    });
  }
}
