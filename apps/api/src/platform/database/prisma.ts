import { Inject, Injectable } from '@nestjs/common';
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { PrismaClient, type Prisma } from '../../generated/prisma/client.js';
import { SERVICE_POOL } from './tokens.js';

const limits = { maxWait: 10_000, timeout: 60_000 }; // Prisma's own are two and five seconds

/** Reads through the generated client, always inside one organisation's transaction, as of one moment, unable to write. */
@Injectable()
export class PrismaReads {
  private readonly client: PrismaClient;

  constructor(@Inject(SERVICE_POOL) pool: pg.Pool) {
    this.client = new PrismaClient({ adapter: new PrismaPg(pool) });
  }

  inOrganisation<T>(organisation: string, read: (tx: Prisma.TransactionClient) => Promise<T>): Promise<T> {
    return this.client.$transaction(
      async (tx) => {
        await tx.$queryRaw`SELECT set_config('transaction_read_only', 'on', true), set_config('app.organisation', ${organisation}, true)`;
        return read(tx);
      },
      { ...limits, isolationLevel: 'RepeatableRead' },
    );
  }
}
