import {
  draftConflict,
  draftContent,
  draftList,
  toSign,
  type DraftConflict,
  type DraftList,
  type DraftView,
  type ToSign,
} from '@bakehouse/contracts';
import type { Permission } from '@bakehouse/kernel';
import { applyDecorators, Body, Controller, Delete, Get, Headers, HttpCode, Param, Post, Put, Query, Res, type Type } from '@nestjs/common';
import { ApiHeader, ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiPreconditionFailedResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import * as z from 'zod';
import { CurrentSession, Permits, type SessionContext } from '../../platform/access/index.js';
import { Limits } from '../../platform/http/index.js';
import { answerConflict, headOf, tagged } from './draft-replies.js';
import { ifMatchHeader, whichDrafts } from './draft-requests.js';
import type { DraftType } from './draft-type.js';
import { DraftsService } from './drafts.service.js';
import { readIfMatch } from './if-match.js';

const uuid = z.uuid();

/** Who may call a route, what it is for, and what it answers with, if with anything. */
const Answers = (permission: Permission, summary: string, shown?: z.ZodType): MethodDecorator =>
  applyDecorators(
    Permits(permission),
    ApiOperation({ summary }),
    shown ? ApiOkResponse({ standardSchema: shown }) : ApiNoContentResponse(),
  );

/** A route that changes a draft where it is at the revision that one was shown. */
const OverRevision = (): MethodDecorator =>
  applyDecorators(ApiHeader(ifMatchHeader), ApiPreconditionFailedResponse({ standardSchema: draftConflict }));

/** The controller of one type of draft: what is being worked on, until what is approved of it goes through the door, signed. */
export function draftsController<Request extends { readonly id: string }, More extends object>(type: DraftType<Request, More>): Type {
  @ApiTags(type.tag)
  @Controller(type.path)
  class DraftsController {
    constructor(private readonly drafts: DraftsService) {}

    @Get()
    @Answers(type.permission, 'Drafts in hand, or those put archived', draftList)
    async list(
      @Query({ schema: whichDrafts }) { archived }: z.infer<typeof whichDrafts>,
      @CurrentSession() session: SessionContext,
    ): Promise<DraftList> {
      return (await this.drafts.list(session, type, archived === 'yes')).map((row) => headOf(type, row));
    }

    @Post()
    @HttpCode(200)
    @Answers(type.permission, type.summaries.make, type.view)
    async make(
      @Body({ schema: type.request }) request: Request,
      @CurrentSession() session: SessionContext,
      @Res({ passthrough: true }) reply: FastifyReply,
    ): Promise<DraftView> {
      return tagged(await this.drafts.make(session, type, request), reply);
    }

    @Get(':draft')
    @Answers(type.permission, type.summaries.show, type.view)
    async show(
      @Param('draft', { schema: uuid }) id: string,
      @CurrentSession() session: SessionContext,
      @Res({ passthrough: true }) reply: FastifyReply,
    ): Promise<DraftView> {
      return tagged(await this.drafts.show(session, type, id), reply);
    }

    @Put(':draft')
    @Limits({ bodyBytes: 1024 * 1024 })
    @Answers(type.permission, 'Save, half made or whole; where somebody saved meanwhile, both texts come back', type.view)
    @OverRevision()
    async save(
      @Param('draft', { schema: uuid }) id: string,
      @Headers('if-match') match: string | undefined,
      @Body({ schema: draftContent }) content: z.infer<typeof draftContent>,
      @CurrentSession() session: SessionContext,
      @Res({ passthrough: true }) reply: FastifyReply,
    ): Promise<DraftView | DraftConflict> {
      const saved = await this.drafts.save(session, type, id, readIfMatch(match), content);
      return saved.as === 'conflict' ? answerConflict(saved.conflict, reply) : tagged(saved.view, reply);
    }

    @Delete(':draft')
    @HttpCode(204)
    @Answers(type.permission, 'Put archived; nothing is deleted, and saving takes it up again')
    @OverRevision()
    async archived(
      @Param('draft', { schema: uuid }) id: string,
      @Headers('if-match') match: string | undefined,
      @CurrentSession() session: SessionContext,
      @Res({ passthrough: true }) reply: FastifyReply,
    ): Promise<DraftConflict | undefined> {
      const conflict = await this.drafts.archived(session, type, id, readIfMatch(match));
      return conflict && answerConflict(conflict.conflict, reply);
    }

    @Get(':draft/to-sign')
    @Answers(type.permission, 'What is signed with the PIN and sent through the door, under the next number', toSign)
    toSign(@Param('draft', { schema: uuid }) id: string, @CurrentSession() session: SessionContext): Promise<ToSign> {
      return this.drafts.toSign(session, type, id);
    }
  }
  // the API's description calls each operation by its controller, and no two may have one name
  Object.defineProperty(DraftsController, 'name', { value: type.controller });
  return DraftsController;
}
