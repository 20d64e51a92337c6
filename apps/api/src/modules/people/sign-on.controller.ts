import {
  newOwnPin,
  newSignOn,
  newTap,
  peopleToSignOn as peopleView,
  signedOn,
  type PeopleToSignOn,
  type SignedOn as Answer,
} from '@bakehouse/contracts';
import { Body, Controller, Get, HttpCode, Post, Query, Req, Res } from '@nestjs/common';
import { ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiQuery, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import * as z from 'zod';
import { clearCookie, Public, sessionCookie, sessionToken } from '../../platform/access/index.js';
import { SignOnService } from './sign-on.service.js';

const ofHouse = z.object({ organisation: z.uuid().toLowerCase().optional() });

@ApiTags('sign-on')
@Controller()
export class SignOnController {
  constructor(private readonly signOn: SignOnService) {}

  @Get('sign-on/people')
  @Public()
  @ApiOperation({ summary: 'The names to tap' })
  @ApiQuery({ name: 'organisation', required: false, description: 'whose names, where several businesses use the service' })
  @ApiOkResponse({ standardSchema: peopleView })
  people(@Query({ schema: ofHouse }) { organisation }: z.infer<typeof ofHouse>, @Req() request: FastifyRequest): Promise<PeopleToSignOn> {
    return this.signOn.people(request, organisation);
  }

  @Post('sign-on')
  @HttpCode(200)
  @Public()
  @ApiOperation({ summary: 'Sign on with a PIN' })
  @ApiOkResponse({ standardSchema: signedOn })
  withPin(
    @Body({ schema: newSignOn }) asked: z.infer<typeof newSignOn>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Answer> {
    return this.signOn.withPin(asked, request, reply);
  }

  @Post('sign-on/own-pin')
  @HttpCode(200)
  @Public()
  @ApiOperation({ summary: 'Change your own PIN and sign on with it; ends every other session of yours' })
  @ApiOkResponse({ standardSchema: signedOn })
  withOwnPin(
    @Body({ schema: newOwnPin }) asked: z.infer<typeof newOwnPin>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Answer> {
    return this.signOn.withOwnPin(asked, request, reply);
  }

  @Post('sign-on/tap')
  @HttpCode(200)
  @Public()
  @ApiOperation({ summary: 'Sign on by a tapped name, on an enrolled device' })
  @ApiOkResponse({ standardSchema: signedOn })
  byTap(
    @Body({ schema: newTap }) asked: z.infer<typeof newTap>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Answer> {
    return this.signOn.byTap(asked.person, request, reply);
  }

  @Post('sign-off')
  @HttpCode(204)
  @Public()
  @ApiOperation({ summary: 'Sign off; succeeds also where nobody is signed on' })
  @ApiNoContentResponse()
  async off(@Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<void> {
    clearCookie(request, reply, sessionCookie);
    await this.signOn.off(sessionToken(request));
  }
}
