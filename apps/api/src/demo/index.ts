import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Clock } from '../platform/clock/index.js';
import { connected, type Database } from '../platform/database/index.js';

/** What a first start has in hand to fill an empty database. */
export interface SeedContext {
  readonly database: Pick<Database, 'ownerUrl' | 'serviceUrl'>;
  /** An application on the same database whose clock can be set: history is written through the door as it happened. Whoever starts it closes it. */
  readonly startApp: (clock: Clock) => Promise<NestFastifyApplication>;
  readonly say: (line: string) => void;
}

/** Fills a database that holds no organisation. Answers with the lines to print: who is there, and with which PINs. */
export async function seedIfEmpty({ database }: SeedContext): Promise<readonly string[]> {
  const { rows } = await connected(database.ownerUrl, (owner) => owner.query<{ empty: boolean }>('SELECT NOT EXISTS (SELECT FROM organisation) AS empty'));
  return rows[0]?.empty ? ['There is no bakehouse in this database yet.'] : [];
}
