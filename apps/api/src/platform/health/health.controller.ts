import { statfs } from 'node:fs/promises';
import { setTimeout as wait } from 'node:timers/promises';
import { problems } from '@bakehouse/kernel';
import { Controller, Get, Inject, Res } from '@nestjs/common';
import { ApiDefaultResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import pg from 'pg';
import * as z from 'zod';
import { Public } from '../access/permits.js';
import { backupState } from '../backups/state.js';
import { CLOCK, type Clock } from '../clock/index.js';
import { CONFIG, isOurOwn, type Config } from '../config/index.js';
import { pendingMigrations, SERVICE_POOL } from '../database/index.js';
import { problemDocument } from '../http/index.js';

export const INSTANCE = Symbol('instance');

const database = z.enum(['answers', 'does-not-answer']);
const alive = z
  .object({ status: z.literal('alive'), service: z.literal('bakehouse-ledger'), instance: z.string(), database })
  .meta({ id: 'Alive' });
const backup = z
  .object({
    state: z
      .enum(['not-set-up', 'recent', 'overdue', 'none', 'unknown'])
      .meta({ description: 'of the daily backups, where the settings ask for them' }),
    newest: z.iso.datetime().nullable().meta({ description: 'of which moment the newest one is' }),
  })
  .meta({ id: 'BackupState' });
const readiness = z
  .object({
    status: z.enum(['ready', 'not-ready']),
    database,
    migrations: z.enum(['up-to-date', 'missing', 'unknown']),
    disk: z.enum(['has-room', 'full', 'unknown']).meta({ description: 'of our own database; of one elsewhere it is not known' }),
    backup,
    says: z.string().nullable().meta({ description: 'why it is not ready, and what to do; null where it is' }),
  })
  .meta({ id: 'Readiness' });
type Readiness = z.infer<typeof readiness>;

const patienceMs = 1000;
const sentences = {
  away: 'The database does not answer. If it does not come back by itself, start it again.',
  missing: 'The database is of an older version. Start the service again: it brings the database up to date.',
  unknown: 'Whether the database is up to date cannot be told. Look in the service’s log.',
  full: '. Free space on it: until then nothing can be recorded for certain.',
};

@ApiTags('health')
@Controller('health')
export class HealthController {
  constructor(
    @Inject(SERVICE_POOL) private readonly pool: pg.Pool,
    @Inject(INSTANCE) private readonly instance: string,
    @Inject(CONFIG) private readonly config: Config,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  @Get()
  @Public()
  @ApiOperation({ summary: 'Whether the service is running' })
  @ApiOkResponse({ standardSchema: alive })
  @ApiDefaultResponse({ standardSchema: problemDocument })
  async live(): Promise<z.infer<typeof alive>> {
    return { status: 'alive', service: 'bakehouse-ledger', instance: this.instance, database: await this.database() };
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

  /** A service whose backups are overdue is ready all the same: it is told, and somebody looks. */
  private async state(): Promise<Readiness> {
    const backups = backupState(this.config, this.clock.now());
    const [database, migrations, disk, backup] = await Promise.all([this.database(), this.migrations(), this.disk(), backups]);
    const says =
      database === 'does-not-answer'
        ? sentences.away
        : migrations !== 'up-to-date'
          ? sentences[migrations]
          : disk === 'full'
            ? problems['disk-full'].title + sentences.full
            : null;
    return { status: says === null ? 'ready' : 'not-ready', database, migrations, disk, backup, says };
  }

  private migrations(): Promise<Readiness['migrations']> {
    return pendingMigrations(this.pool).then(
      (pending) => (pending.length === 0 ? 'up-to-date' : 'missing'),
      () => 'unknown',
    );
  }

  /** Who asks whether the service runs is not kept waiting for a database that does not. */
  private database(): Promise<Readiness['database']> {
    const asked = this.pool.query('SELECT 1').then(
      () => 'answers' as const,
      () => 'does-not-answer' as const,
    );
    return Promise.race([asked, wait(patienceMs, 'does-not-answer' as const, { ref: false })]);
  }

  private disk(): Promise<Readiness['disk']> {
    if (!isOurOwn(this.config)) return Promise.resolve('unknown');
    return statfs(this.config.DATA_DIR).then(
      ({ bavail, bsize }) => ((bavail * bsize) / (1024 * 1024) < this.config.LEAST_FREE_MB ? 'full' : 'has-room'),
      () => 'unknown',
    );
  }
}
