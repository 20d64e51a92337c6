import { Inject, Module, type DynamicModule, type OnApplicationShutdown } from '@nestjs/common';
import pg from 'pg';
import { servicePool } from './pool.js';
import { PrismaReads } from './prisma.js';
import { Tenancy } from './tenancy.js';
import { SERVICE_POOL } from './tokens.js';

/** The service's connections, for every module. They end after the last request has been answered. */
@Module({})
export class DatabaseModule implements OnApplicationShutdown {
  constructor(@Inject(SERVICE_POOL) private readonly pool: pg.Pool) {}

  static of(serviceUrl: string, max: number): DynamicModule {
    const pool = { provide: SERVICE_POOL, useFactory: () => servicePool(serviceUrl, max) };
    return { module: DatabaseModule, global: true, providers: [pool, Tenancy, PrismaReads], exports: [SERVICE_POOL, Tenancy, PrismaReads] };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.pool.end();
  }
}
