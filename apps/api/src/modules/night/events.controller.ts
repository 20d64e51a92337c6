import { Controller, Param, Req, Sse, type MessageEvent } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import type { Observable } from 'rxjs';
import * as z from 'zod';
import { CurrentSession, Permits, Sessions, sessionToken, type SessionContext } from '../../platform/access/index.js';
import { HeadWatch } from './head-watch.js';

/** Says only that something was recorded: each listener asks for what they show, as themselves. */
@ApiTags('night')
@Controller('sites/:site/events')
export class EventsController {
  constructor(
    private readonly watch: HeadWatch,
    private readonly sessions: Sessions,
  ) {}

  @Sse()
  @Permits('view')
  @ApiOperation({
    summary: 'Server-sent events: how many entries the books hold now, whenever that changed; goes on after Last-Event-ID',
  })
  events(
    @Param('site', { schema: z.uuid().toLowerCase() }) site: string,
    @CurrentSession() { organisation, session, person }: SessionContext,
    @Req() request: FastifyRequest,
  ): Observable<MessageEvent> {
    const last = request.headers['last-event-id'];
    const stillMay = async (): Promise<void> => (await this.sessions.current(sessionToken(request))).require('view', site);
    return this.watch.events({ organisation, session, person, last: typeof last === 'string' ? last : undefined, stillMay });
  }
}
