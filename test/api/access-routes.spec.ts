import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Controller, Get, Module, Post, type DynamicModule, type Type } from '@nestjs/common';
import { serveModule } from '../../apps/api/src/app.js';
import { PeopleModule } from '../../apps/api/src/modules/people/index.js';
import { AccessModule, Exported, Permits, Public, SignedOn, Viewed } from '../../apps/api/src/platform/access/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { EntriesModule } from '../../apps/api/src/platform/entries/index.js';
import { LedgerModule } from '../../apps/api/src/platform/ledger/index.js';
import { PlatformModule } from '../../apps/api/src/platform/platform.module.js';
import type { TestApp } from '../support/app.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { House, signOn, type Caller } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

/** An application of the platform and one controller. */
async function serve(controller: Type): Promise<TestApp> {
  const config = readConfig({ LOG_LEVEL: 'silent', DATABASE_POOL: '4', SEED_DEMO: 'no' });
  const platform = PlatformModule.of({ config, serviceUrl: database.serviceUrl, clock, instance: randomUUID() });
  @Module({})
  class Tried {}
  const module: DynamicModule = {
    module: Tried,
    imports: [platform, AccessModule, LedgerModule, EntriesModule, PeopleModule],
    controllers: [controller],
  };
  const app = await serveModule(module, config, '/nowhere');
  return { app, server: app.getHttpServer(), database, clock, close: () => app.close() };
}

describe('the census of the routes', () => {
  it('does not start with a route that does not say who may call it', async () => {
    @Controller('tried')
    class Forgotten {
      @Get('said') @Public() said(): string {
        return 'yes';
      }
      @Get() forgotten(): string {
        return 'no';
      }
    }
    await expect(serve(Forgotten)).rejects.toThrow(
      'The service does not start: The route Forgotten.forgotten does not say who may call it. Put @Permits, @SignedOn or @Public on it.',
    );
  });

  it('does not start with one that lets an inspector change something', async () => {
    @Controller('tried')
    class Changing {
      @Post() @Permits('view', 'inspect') @Viewed('things') change(): string {
        return 'no';
      }
    }
    await expect(serve(Changing)).rejects.toThrow(
      'The route Changing.change is open to an inspector and is no GET: an inspector only looks.',
    );
  });

  it('does not start with one whose showing an inspector is not noted', async () => {
    @Controller('tried')
    class Unnoted {
      @Get() @Permits('inspect') show(): string {
        return 'no';
      }
    }
    await expect(serve(Unnoted)).rejects.toThrow('The route Unnoted.show is open to an inspector and does not say what it shows.');
  });

  it('finds a method that a controller has from another class', async () => {
    class Base {
      @Get('base') inherited(): string {
        return 'no';
      }
    }
    @Controller('tried')
    class Heir extends Base {}
    await expect(serve(Heir)).rejects.toThrow('The route Heir.inherited does not say who may call it.');
  });
});

@Controller()
class Shown {
  @Get('sites/:site/shown') @Permits('view', 'inspect') @Viewed('makes of a day') shown(): object {
    return { shown: true };
  }
  @Get('sites/:site/paper') @Permits('export', 'inspect') @Exported('pack of a period') paper(): object {
    return { paper: true };
  }
  @Get('sites/:site/failing') @Permits('view', 'inspect') @Viewed('what fails') failing(): object {
    throw new Error('broken');
  }
  @Get('sites/:site/inside') @Permits('view') inside(): object {
    return { inside: true };
  }
  @Get('anyone') @SignedOn() anyone(): object {
    return { anyone: true };
  }
}

describe('an inspector', () => {
  let t: TestApp;
  let house: House;
  let inspector: Caller;
  const noted = (): Promise<unknown[]> =>
    connected(database.ownerUrl, async (owner) => {
      const { rows } = await owner.query('SELECT person, site, what, address, exported FROM viewing ORDER BY at, address DESC');
      return rows;
    });
  beforeAll(async () => {
    t = await serve(Shown);
    house = await House.found(t, [
      { name: 'Mill Lane', zone: 'Europe/London' },
      { name: 'Quay', zone: 'Europe/London' },
    ]);
    inspector = await house.signedOn('Ina Spector', ['inspector'], house.site);
  });
  afterAll(() => t.close());

  it('sees the sites of the access, and every look is noted', async () => {
    await inspector.get(`/sites/${house.site}/shown?day=2026-11-24`).expect(200);
    await inspector.get(`/sites/${house.site}/paper`).expect(200);
    await inspector.get(`/sites/${house.site}/failing`).expect(500);
    const at = { person: inspector.person, site: house.site };
    expect(await noted()).toEqual([
      { ...at, what: 'makes of a day', address: `/api/v1/sites/${house.site}/shown?day=2026-11-24`, exported: false },
      { ...at, what: 'pack of a period', address: `/api/v1/sites/${house.site}/paper`, exported: true },
    ]);
    const lead = await house.signedOn('Vic Cole', ['food-safety-lead']);
    await lead.get(`/sites/${house.site}/shown`).expect(200);
    expect(await noted()).toHaveLength(2);
  });

  it('sees no other site, nothing inside, and writes nothing', async () => {
    const quay = house.created.sites[1] ?? '';
    await inspector.get(`/sites/${quay}/shown`).expect(403);
    await inspector.get(`/sites/${randomUUID()}/shown`).expect(422);
    await inspector.get(`/sites/${house.site}/inside`).expect(403);
    await inspector.post(`/sites/${house.site}/entries`, [{}]).expect(403);
    await inspector.post('/organisation/entries', [{}]).expect(403);
    await inspector.get('/devices').expect(403);
    await inspector.get('/anyone').expect(200);
    const { body } = await inspector.get('/me').expect(200);
    expect(body).toMatchObject({
      permissions: ['inspect'],
      sites: [{ id: house.site, permissions: ['inspect'] }],
      inspections: [{ sites: [house.site], from: '2026-10-26', until: null }],
    });
  });

  it('sees nothing once the access has expired or was ended', async () => {
    const second = await house.signedOn('Ian Spector', ['inspector'], house.site);
    const { rows } = await connected(database.ownerUrl, (owner) =>
      owner.query('SELECT id FROM access_given WHERE person = $1', [second.person]),
    );
    await house.decide({ kind: 'access-ended', payload: { access: rows[0]?.id } });
    await second.get(`/sites/${house.site}/shown`).expect(403);
    clock.advance({ hours: 24 });
    const { body: people } = await inspector.get('/sign-on/people').expect(200);
    expect(people.people.map((p: { name: string }) => p.name)).not.toContain('Ina Spector');
    const again = await signOn(t, house.organisation, inspector.person, inspector.pin);
    await again.get(`/sites/${house.site}/shown`).expect(403);
    expect(await noted()).toHaveLength(2);
  });
});
