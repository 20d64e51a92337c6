import { newSignature, signature, type IssuedSignature } from '@bakehouse/contracts';
import { Body, Controller, HttpCode, Post, Req } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, SignedOn, type SessionContext } from '../../platform/access/index.js';
import { entriesBodyLimit, Limits } from '../../platform/http/index.js';
import { SignaturesService } from './signatures.service.js';

@ApiTags('sign-on')
@Controller('signatures')
export class SignaturesController {
  constructor(private readonly signatures: SignaturesService) {}

  @Post()
  @HttpCode(200)
  @Limits({ bodyBytes: entriesBodyLimit })
  @SignedOn()
  @ApiOperation({ summary: 'Exchange the PIN for a signature that is valid for one entry, once, for two minutes' })
  @ApiOkResponse({ standardSchema: signature })
  sign(
    @Body({ schema: newSignature }) asked: z.infer<typeof newSignature>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
  ): Promise<IssuedSignature> {
    return this.signatures.issue(session, asked.pin, asked.entry, request.ip);
  }
}
