import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { ProblemException } from '../http/index.js';
import { DeclaredAccess } from './permits.js';
import { refuseUnsaid, sessionToken } from './presented.js';
import { Refusals } from './refusals.js';
import { keepSession } from './session.js';
import { Sessions } from './sessions.js';

const withSite = z.object({ site: z.string() });

/** Guards every route: a route that declares no access is denied to everybody. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly sessions: Sessions,
    private readonly refusals: Refusals,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const access = this.reflector.get(DeclaredAccess, context.getHandler());
    if (!access) throw new ProblemException('not-permitted');
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    refuseUnsaid(request);
    if (access.to === 'anybody') return true;
    const session = await this.sessions.current(sessionToken(request));
    keepSession(request, session);
    if (access.to === 'permitted') {
      try {
        session.require(access.any, withSite.safeParse(request.params).data?.site ?? null);
      } catch (error) {
        await this.refusals.note(session, request, error);
        throw error;
      }
    }
    return true;
  }
}
