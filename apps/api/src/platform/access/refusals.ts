import { Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { LRUCache } from 'lru-cache';
import { ProblemException } from '../http/index.js';
import { fromOf } from './from.js';
import { SecurityLog } from './security-log.js';
import type { SessionContext } from './session.js';

/** One session that asks for one route again and again is noted once a minute. */
const againMs = 60_000;
const most = 10_000;

/** Notes that somebody who is signed on asked for what they may not do. */
@Injectable()
export class Refusals {
  private readonly noted = new LRUCache<string, true>({ max: most, ttl: againMs });

  constructor(private readonly security: SecurityLog) {}

  async note(session: SessionContext, request: FastifyRequest, error: unknown): Promise<void> {
    if (!(error instanceof ProblemException) || error.problem.problem !== 'not-permitted') return;
    const detail = `${request.method} ${request.routeOptions.url ?? ''}`;
    const key = `${session.session} ${detail}`;
    if (this.noted.has(key)) return;
    this.noted.set(key, true);
    await this.security.noteAlone(session.organisation, {
      what: 'refused',
      person: session.person,
      from: fromOf(session, request.ip),
      detail,
    });
  }
}
