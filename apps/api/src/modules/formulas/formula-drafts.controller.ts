import {
  draftConflict,
  draftContent,
  draftList,
  formulaDraftView,
  newFormulaDraft,
  toSign,
  type DraftConflict,
  type DraftList,
  type FormulaDraftView,
  type ToSign,
} from '@bakehouse/contracts';
import { Body, Controller, Delete, Get, Headers, HttpCode, Param, Post, Put, Query, Req, Res } from '@nestjs/common';
import { ApiHeader, ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiPreconditionFailedResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { Limits } from '../../platform/http/index.js';
import { answerConflict, DraftsService, headOf, ifMatchHeader, readIfMatch, tagged, whichDrafts } from '../drafts/index.js';
import { FormulaDraftsService } from './formula-drafts.service.js';

const uuid = z.uuid();

/** Formulas that are being worked on. What is approved of one goes through the door, signed. */
@ApiTags('formulas')
@Controller('formulas/drafts')
export class FormulaDraftsController {
  constructor(
    private readonly drafts: DraftsService,
    private readonly formulas: FormulaDraftsService,
  ) {}

  @Get()
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'Drafts in hand, or those archived' })
  @ApiOkResponse({ standardSchema: draftList })
  async list(
    @Query({ schema: whichDrafts }) { archived }: z.infer<typeof whichDrafts>,
    @CurrentSession() session: SessionContext,
  ): Promise<DraftList> {
    return (await this.drafts.list(session, 'formula', archived === 'yes')).map((row) => headOf(row, row.content['name']));
  }

  @Post()
  @HttpCode(200)
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'A draft from the newest version of a formula, or from nothing' })
  @ApiOkResponse({ standardSchema: formulaDraftView })
  async make(
    @Body({ schema: newFormulaDraft }) asked: z.infer<typeof newFormulaDraft>,
    @CurrentSession() session: SessionContext,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<FormulaDraftView> {
    return tagged(await this.formulas.make(session, asked), reply);
  }

  @Get(':draft')
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'A draft with what it lacks, its figures, and what it changes' })
  @ApiOkResponse({ standardSchema: formulaDraftView })
  async show(
    @Param('draft', { schema: uuid }) id: string,
    @CurrentSession() session: SessionContext,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<FormulaDraftView> {
    return tagged(await this.formulas.show(session, id), reply);
  }

  @Put(':draft')
  @Limits({ bodyBytes: 1024 * 1024 })
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'Save, half made or whole; where somebody saved meanwhile, both texts come back' })
  @ApiHeader(ifMatchHeader)
  @ApiOkResponse({ standardSchema: formulaDraftView })
  @ApiPreconditionFailedResponse({ standardSchema: draftConflict })
  async save(
    @Param('draft', { schema: uuid }) id: string,
    @Headers('if-match') match: string | undefined,
    @Body({ schema: draftContent }) content: z.infer<typeof draftContent>,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<FormulaDraftView | DraftConflict> {
    const saved = await this.drafts.save(session, 'formula', id, readIfMatch(match), content);
    return saved.as === 'conflict' ? answerConflict(saved.conflict, request, reply) : tagged(await this.formulas.show(session, id), reply);
  }

  @Delete(':draft')
  @HttpCode(204)
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'Archive it; nothing is deleted, and saving takes it up again' })
  @ApiHeader(ifMatchHeader)
  @ApiNoContentResponse()
  @ApiPreconditionFailedResponse({ standardSchema: draftConflict })
  async archived(
    @Param('draft', { schema: uuid }) id: string,
    @Headers('if-match') match: string | undefined,
    @CurrentSession() session: SessionContext,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<DraftConflict | undefined> {
    const saved = await this.drafts.archived(session, 'formula', id, readIfMatch(match));
    return saved.as === 'conflict' ? answerConflict(saved.conflict, request, reply) : undefined;
  }

  @Get(':draft/to-sign')
  @Permits('manage.formulas')
  @ApiOperation({ summary: 'What is signed with the PIN and sent through the door, under the next number' })
  @ApiOkResponse({ standardSchema: toSign })
  toSign(@Param('draft', { schema: uuid }) id: string, @CurrentSession() session: SessionContext): Promise<ToSign> {
    return this.formulas.toSign(session, id);
  }
}
