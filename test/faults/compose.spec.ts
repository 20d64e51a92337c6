import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { parse } from 'yaml';
import * as z from 'zod';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { serviceRole } from '../../apps/api/src/platform/database/index.js';
import { createEmptyDatabase, type TestDatabase } from '../support/database.js';
import { freePort, root, Start } from '../support/start.js';
import { ownFolder } from '../support/folder.js';

/** As openssl rand -base64 32 writes one. */
const key = Buffer.alloc(32, 7).toString('base64');
const words = z.record(z.string(), z.string());
const shape = z.object({
  services: z.object({
    app: z.object({
      build: z.object({ context: z.literal('.'), dockerfile: z.string() }),
      environment: words,
      ports: z.array(z.string()),
      volumes: z.array(z.string()),
    }),
    migrate: z.object({ command: z.array(z.string()), environment: words }),
    database: z.object({ image: z.string(), environment: words, volumes: z.array(z.string()) }),
  }),
  volumes: z.record(z.string(), z.null()),
});

describe('the shape of a server', () => {
  let compose: z.infer<typeof shape>;
  let dockerfile: string;
  beforeAll(async () => {
    compose = shape.parse(parse(await readFile(path.join(root, 'docker-compose.yml'), 'utf8')));
    dockerfile = await readFile(path.join(root, compose.services.app.build.dockerfile), 'utf8');
  });

  it('is as the linter of compose files wants it', async () => {
    const lint = promisify(execFile)(
      process.execPath,
      [path.join(root, 'node_modules/.bin/dclint'), '--max-warnings', '0', 'docker-compose.yml'],
      { cwd: root },
    );
    await expect(lint).resolves.toBeDefined();
  });

  it('names only files that there are', () => {
    const copied = [...dockerfile.matchAll(/^COPY --from=build \/app\/(\S+)/gm)].map(([, source]) => source ?? '');
    expect(copied.length).toBeGreaterThan(3);
    expect(copied.filter((source) => !existsSync(path.join(root, source)))).toEqual([]);
    expect(dockerfile).toMatch(/^CMD \["node", "apps\/api\/dist\/main\.js"\]$/m);
    expect(existsSync(path.join(root, 'apps/api/src/main.ts'))).toBe(true);
    expect(dockerfile).toContain('npm run build');
    for (const volume of [...compose.services.database.volumes, ...compose.services.app.volumes])
      expect(Object.keys(compose.volumes)).toContain(volume.split(':')[0]);
  });

  it('refuses to be raised without a key for seals, and writes them where the account of the image may write', () => {
    const { environment, volumes } = compose.services.app;
    expect(environment['SEAL_KEY']).toMatch(/^\$\{SEAL_KEY:\?.*openssl rand -base64 32.*\}$/); // the ":?" of compose: unset or empty is an error
    const [, folder = ''] = volumes[0]?.split(':') ?? [];
    expect(environment['SEALS_DIR']).toBe(folder);
    expect(dockerfile).toMatch(new RegExp(`^RUN mkdir ${folder} && chown node:node ${folder}\nUSER node$`, 'm'));
  });

  const filled = (of: Readonly<Record<string, string>>): Record<string, string> =>
    Object.fromEntries(
      Object.entries(of).map(([name, value]) => [name, value.replace(/\$\{[^}]*\}/, name === 'SEAL_KEY' ? key : 'secret')]),
    );

  it('sets only what the service knows, and to what it takes', () => {
    const environment = filled(compose.services.app.environment);
    const config = readConfig(environment);
    expect(Object.keys(environment).filter((name) => !(name in config))).toEqual([]);
    expect(config.PORT).toBe(Number(compose.services.app.ports[0]?.split(':').at(-1)));
    expect(new URL(config.DATABASE_URL ?? '').pathname.slice(1)).toBe(compose.services.database.environment['POSTGRES_DB']);
  });

  it('gives the owner’s login to what migrates alone, and the service its own', () => {
    const { app, migrate, database } = compose.services;
    expect(JSON.stringify(app)).not.toMatch(/POSTGRES_PASSWORD|bakehouse_owner/);
    const [ours, theirs] = [readConfig(filled(app.environment)), readConfig(filled(migrate.environment))];
    expect(new URL(theirs.OWNER_DATABASE_URL ?? '').username).toBe(database.environment['POSTGRES_USER']);
    expect([theirs.DATABASE_URL, ours.OWNER_DATABASE_URL]).toEqual([ours.DATABASE_URL, undefined]);
    expect(new URL(ours.DATABASE_URL ?? '').username).toBe(serviceRole);
    expect(migrate.command).toEqual(['node', 'apps/api/dist/records.js', 'migrate']);
    expect(existsSync(path.join(root, 'apps/api/src/records.ts'))).toBe(true);
  });

  describe('outside a container', () => {
    let database: TestDatabase;
    let folder: string;
    beforeAll(async () => {
      database = await createEmptyDatabase();
      folder = path.join(await ownFolder('compose-'), 'data');
    });
    afterAll(async () => {
      await database.drop();
      await rm(path.dirname(folder), { recursive: true });
    });

    it('serves from the database of DATABASE_URL, twice on two ports, and starts nothing of its own', async () => {
      const [OWNER_DATABASE_URL, DATABASE_URL] = [database.ownerUrl, database.serviceUrl];
      const env = { DATABASE_URL, HOST: '0.0.0.0', LOG_LEVEL: 'info', SEAL_KEY: key };
      const run = async (words: readonly string[], given: Record<string, string>) => {
        const one = new Start(folder, await freePort(), [process.execPath, ...words], given);
        return [await one.ended, one.output] as const;
      };
      const serve = ['libs/tooling/bin/start.mjs'];
      expect(await run(serve, env)).toEqual([1, expect.stringMatching(/The database has none of our tables yet.*records -- migrate\n$/)]);
      const migrate = ['apps/api/dist/records.js', 'migrate'];
      expect(await run(migrate, env)).toEqual([1, expect.stringMatching(/^This changes more than the service may.*OWNER_DATABASE_URL/)]);
      expect(await run(migrate, { OWNER_DATABASE_URL, DATABASE_URL })).toEqual([0, expect.stringMatching(/^Applied: 20261126200000/)]);
      expect(await run(migrate, { OWNER_DATABASE_URL, DATABASE_URL })).toEqual([0, 'The database was up to date.\n']);
      expect(await run(serve, { ...env, OWNER_DATABASE_URL })).toEqual([1, expect.stringMatching(/does not run with the owner’s login/)]);
      expect(await run(serve, { ...env, DATABASE_URL: OWNER_DATABASE_URL })).toEqual([
        1,
        expect.stringMatching(/The service will not run as bakehouse_owner/),
      ]);
      const first = new Start(folder, await freePort(), undefined, env);
      await first.ready('connecting to the database of DATABASE_URL');
      const second = new Start(folder, await freePort(), [process.execPath, 'apps/api/dist/main.js'], env);
      await second.ready(); // as the image starts it
      for (const one of [first, second])
        expect(await one.health()).toMatchObject({ status: 'ready', database: 'answers', migrations: 'up-to-date' });
      const beside = new Start(folder, first.port, undefined, env);
      expect([await beside.ended, /running already/.test(beside.output)]).toEqual([0, true]);
      expect(existsSync(folder)).toBe(false);
      expect(await Promise.all([first.stop(), second.stop()])).toEqual([0, 0]);
    });
  });
});
