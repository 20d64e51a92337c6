import { randomUUID } from 'node:crypto';
import type { Server } from 'node:http';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { createApp, type AppOptions } from '../../apps/api/src/app.js';
import { SettableClock, type Clock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { LedgerService } from '../../apps/api/src/platform/ledger/index.js';
import { createTestDatabase, type TestDatabase } from './database.js';

export interface TestApp {
  readonly app: NestFastifyApplication;
  /** For supertest: `request(server)`. */
  readonly server: Server;
  readonly database: TestDatabase;
  readonly clock: Clock;
  /** Closes the application and drops its database. @throws where the service failed at its records, unless a test says that it made it fail */
  close(): Promise<void>;
}

/** Every test signs with PINs, and few are about what a hash costs: as cheap as Argon2 can be. */
export const quickPins = { memoryCost: 8, timeCost: 1, parallelism: 1 };

type Given = Partial<Pick<AppOptions, 'clock' | 'webFolder' | 'instance'>> & {
  readonly env?: Readonly<Record<string, string>>;
  /** One that is there already, in place of an empty one. */
  readonly database?: TestDatabase;
};

/** The real application on a database of its own. Without a clock, one that stands at 25 November 2026, 03:40 UTC. */
export async function startTestApp({
  clock = new SettableClock('2026-11-25T03:40:00Z'),
  env = {},
  database: there,
  ...given
}: Given = {}): Promise<TestApp> {
  const database = there ?? (await createTestDatabase());
  const config = readConfig({ LOG_LEVEL: 'silent', DATABASE_POOL: '5', SEED_DEMO: 'no', ...env });
  const app = await createApp({
    config,
    serviceUrl: database.serviceUrl,
    clock,
    webFolder: '/nowhere',
    pinCost: quickPins,
    instance: randomUUID(),
    ...given,
  });
  return {
    app,
    database,
    clock,
    server: app.getHttpServer(),
    close: async () => {
      await app.close();
      await database.drop();
      expectNoFaults(app);
    },
  };
}

/** What is done beside a commit fails unseen by those who record, and by a test that asks for answers alone. */
export function expectNoFaults(app: NestFastifyApplication): void {
  const { count, last } = app.get(LedgerService, { strict: false }).faults;
  if (count > 0) throw new Error(`the service failed ${count} times at its records, the last time: ${last}`);
}

/** Of a test that makes the service fail: how often it did, once. */
export function takeFaults(app: NestFastifyApplication): number {
  const { faults } = app.get(LedgerService, { strict: false });
  const { count } = faults;
  faults.count = 0;
  return count;
}
