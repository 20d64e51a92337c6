import type { Server } from 'node:http';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import request from 'supertest';
import { snapshotOf, type Snapshot } from '@bakehouse/records';
import { createApp } from '../../apps/api/src/app.js';
import { people, type PersonKey } from '../../apps/api/src/demo/data/people.js';
import { found, type Founded } from '../../apps/api/src/demo/found.js';
import type { Planted } from '../../apps/api/src/demo/story/story.js';
import { SettableClock, type Clock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { expectNoFaults, quickPins } from './app.js';
import { createTestDatabase, type TestDatabase } from './database.js';
import { Caller } from './people.js';

/** The demo's bakehouse on a database of its own, and the service on it as on the morning after. */
export class Demo {
  private constructor(
    readonly database: TestDatabase,
    readonly app: NestFastifyApplication,
    readonly made: Founded,
    readonly owner: Caller,
    readonly said: readonly string[],
  ) {}

  static async found(now: string, weeks: number): Promise<Demo> {
    const database = await createTestDatabase();
    const said: string[] = [];
    const wrote: NestFastifyApplication[] = [];
    const startApp = async (clock: Clock): Promise<NestFastifyApplication> => {
      const app = await starter(database)(clock);
      wrote.push(app);
      return app;
    };
    const made = await found({ ownerUrl: database.ownerUrl, startApp, say: (line) => said.push(line), now: new Date(now), weeks });
    wrote.forEach(expectNoFaults);
    const app = await startApp(new SettableClock(now));
    return new Demo(database, app, made, await signOn(app.getHttpServer(), made, 'owner'), said);
  }

  get server(): Server {
    return this.app.getHttpServer();
  }
  signOn(who: PersonKey): Promise<Caller> {
    return signOn(this.server, this.made, who);
  }

  planted(key: string): Planted {
    const planted = this.made.whole.planted.get(key);
    if (!planted) throw new Error(`nothing is planted as ${key}`);
    return planted;
  }

  /** The night as the tablet gets it. */
  async night(day: string, site: 'bakehouse' | 'shop' = 'bakehouse'): Promise<Snapshot> {
    const { body } = await this.owner.get(`/sites/${this.made.sites[site]}/night?day=${day}`).expect(200);
    return snapshotOf(body.rows);
  }

  async stop(): Promise<void> {
    await this.app.close();
    await this.database.drop();
    expectNoFaults(this.app);
  }
}

export const starter =
  (database: TestDatabase) =>
  (clock: Clock): Promise<NestFastifyApplication> =>
    createApp({
      config: readConfig({ LOG_LEVEL: 'error', DATABASE_POOL: '5' }),
      serviceUrl: database.serviceUrl,
      clock,
      webFolder: '/nowhere',
      pinCost: quickPins,
    });

async function signOn(server: Server, { created, whole }: Founded, who: PersonKey): Promise<Caller> {
  const person = whole.story.person[who];
  const { pin } = people[who];
  const { body } = await request(server).post('/api/v1/sign-on').send({ organisation: created.organisation, person, pin }).expect(200);
  return new Caller(server, person, pin, String(body.token));
}
