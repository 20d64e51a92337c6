import { Inject, Injectable, type CallHandler, type ExecutionContext, type NestInterceptor } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyRequest } from 'fastify';
import { catchError, concatMap, from, map, type Observable } from 'rxjs';
import * as z from 'zod';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy } from '../database/index.js';
import { uuidv7 } from '../ids/index.js';
import { DeclaredViewing, type Viewing } from './permits.js';
import { fromOf } from './from.js';
import { Refusals } from './refusals.js';
import { SecurityLog } from './security-log.js';
import { sessionOf, type SessionContext } from './session.js';

const withSite = z.object({ site: z.string() });

/** Notes what an inspector was shown, what anybody took away, and what was refused, before it is answered: what cannot be noted is not shown. */
@Injectable()
export class ViewingInterceptor implements NestInterceptor {
  constructor(
    private readonly reflector: Reflector,
    private readonly tenancy: Tenancy,
    private readonly security: SecurityLog,
    private readonly refusals: Refusals,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler<unknown>): Observable<unknown> {
    const viewing = this.reflector.get(DeclaredViewing, context.getHandler());
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const session = sessionOf(request);
    const site = withSite.safeParse(request.params).data?.site ?? null;
    if (!session) return next.handle();
    const handled = next.handle().pipe(
      catchError((error: unknown) =>
        from(this.refusals.note(session, request, error)).pipe(
          map((): never => {
            throw error;
          }),
        ),
      ),
    );
    if (!viewing) return handled;
    const first = (note: () => Promise<void>): Observable<unknown> =>
      handled.pipe(
        concatMap(async (shown) => {
          await note();
          return shown;
        }),
      );
    if (!session.permissionsAt(site).has('view')) return first(() => this.note(session, site, viewing, request.url));
    return viewing.exported ? first(() => this.noteExport(session, viewing, request)) : handled;
  }

  private noteExport({ organisation, person, device }: SessionContext, { what }: Viewing, { ip, url }: FastifyRequest): Promise<void> {
    return this.security.noteAlone(organisation, { what: 'exported', person, from: fromOf({ device }, ip), detail: `${what}: ${url}` });
  }

  private async note(
    { organisation, person, session }: SessionContext,
    site: string | null,
    { what, exported }: Viewing,
    address: string,
  ): Promise<void> {
    const now = this.clock.now();
    await this.tenancy.inOrganisation(organisation, (client) =>
      client.query(
        'INSERT INTO viewing (organisation, id, at, person, session, site, what, address, exported) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)',
        [organisation, uuidv7(now), now.toISOString(), person, session, site, what, address.slice(0, 2000), exported],
      ),
    );
  }
}
