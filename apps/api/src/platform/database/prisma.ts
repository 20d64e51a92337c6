import { Inject, Injectable } from '@nestjs/common';
import { PrismaPg } from '@prisma/adapter-pg';
import { isDriverAdapterError } from '@prisma/driver-adapter-utils';
import pg from 'pg';
import { Prisma, PrismaClient } from '../../generated/prisma/client.js';
import { SERVICE_POOL } from './tokens.js';

const limits = { maxWait: 15_000, timeout: 60_000 }; // Prisma's own are two and five seconds; the pool gives up first, in its own words

/** What the adapter keeps of an error of the connection is its kind alone. */
const socketCodes: Readonly<Record<string, string>> = {
  DatabaseNotReachable: 'ECONNREFUSED',
  ConnectionClosed: 'ECONNRESET',
  SocketTimeout: 'ETIMEDOUT',
};

/** What a plain read asks: every table of the schema, within one organisation's transaction. */
export type ReadTransaction = Prisma.TransactionClient;

/** Reads through the generated client, always inside one organisation's transaction, as of one moment, unable to write. */
@Injectable()
export class PrismaReads {
  private readonly client: PrismaClient;

  constructor(@Inject(SERVICE_POOL) pool: pg.Pool) {
    this.client = new PrismaClient({ adapter: new PrismaPg(pool) });
  }

  inOrganisation<T>(organisation: string, read: (tx: ReadTransaction) => Promise<T>): Promise<T> {
    return this.client
      .$transaction(
        async (tx) => {
          await tx.$queryRaw`SELECT set_config('transaction_read_only', 'on', true), set_config('app.organisation', ${organisation}, true)`;
          return read(tx);
        },
        { ...limits, isolationLevel: 'RepeatableRead' },
      )
      .catch((error: unknown) => {
        throw asTheDriverSaid(error);
      });
  }
}

/** The driver's error with its own code, as a query of ours would have thrown it: what a request is answered depends on that code. */
function asTheDriverSaid(error: unknown): unknown {
  const inside = error instanceof Prisma.PrismaClientKnownRequestError ? error.meta?.['driverAdapterError'] : error;
  if (!isDriverAdapterError(inside)) return error;
  const { kind, originalCode, originalMessage } = inside.cause;
  return Object.assign(new Error(originalMessage ?? inside.message, { cause: error }), { code: originalCode ?? socketCodes[kind] });
}
