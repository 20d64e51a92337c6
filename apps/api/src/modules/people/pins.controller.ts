import { newPin } from '@bakehouse/contracts';
import { Body, Controller, HttpCode, Param, Post, Req } from '@nestjs/common';
import { ApiNoContentResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, fromOf, Pins, SignedOn, type SessionContext } from '../../platform/access/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { PinChanges } from './pin-change.service.js';

@ApiTags('people')
@Controller('people')
export class PinsController {
  constructor(
    private readonly pins: Pins,
    private readonly changes: PinChanges,
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
    await this.pins.provePresent(session, currentPin, request.ip, own ? { given: true } : undefined);
    const from = fromOf(session, request.ip);
    await this.changes.make({ organisation, person, pin, by: session.person, from, but: own ? session.session : null });
  }
}
