import { Controller, Get, Inject, Res } from '@nestjs/common';
import { ApiDefaultResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import pg from 'pg';
import * as z from 'zod';
import { Public } from '../access/permits.js';
import { pendingMigrations, SERVICE_POOL } from '../database/index.js';
import { problemDocument } from '../http/index.js';

export const INSTANCE = Symbol('instance');

const alive = z.object({ status: z.literal('alive'), service: z.literal('bakehouse-ledger'), instance: z.string() }).meta({ id: 'Alive' });
const readiness = z
  .object({
    status: z.enum(['ready', 'not-ready']),
    database: z.enum(['answers', 'does-not-answer']),
    migrations: z.enum(['up-to-date', 'missing', 'unknown']),
  })
  .meta({ id: 'Readiness' });
type Readiness = z.infer<typeof readiness>;

@ApiTags('health')
@Controller('health')
export class HealthController {
  constructor(
    @Inject(SERVICE_POOL) private readonly pool: pg.Pool,
    @Inject(INSTANCE) private readonly instance: string,
  ) {}

  @Get()
  @Public()
  @ApiOperation({ summary: 'Whether the service is running' })
  @ApiOkResponse({ standardSchema: alive })
  @ApiDefaultResponse({ standardSchema: problemDocument })
  live(): z.infer<typeof alive> {
    return { status: 'alive', service: 'bakehouse-ledger', instance: this.instance };
  }

  @Get('ready')
  @Public()
  @ApiOperation({ summary: 'Whether the service is ready: 200 if it is, 503 if not' })
  @ApiOkResponse({ standardSchema: readiness })
  async ready(@Res({ passthrough: true }) reply: FastifyReply): Promise<Readiness> {
    const state = await this.state();
    void reply.status(state.status === 'ready' ? 200 : 503);
    return state;
  }

  private async state(): Promise<Readiness> {
    try {
      const pending = await pendingMigrations(this.pool);
      return pending.length === 0
        ? { status: 'ready', database: 'answers', migrations: 'up-to-date' }
        : { status: 'not-ready', database: 'answers', migrations: 'missing' };
    } catch {
      const answers = await this.pool.query('SELECT 1').then(
        () => true,
        () => false,
      );
      return { status: 'not-ready', database: answers ? 'answers' : 'does-not-answer', migrations: 'unknown' };
    }
  }
}
