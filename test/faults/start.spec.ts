import { existsSync } from 'node:fs';
import { execFile } from 'node:child_process';
import { chmod, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { connected, EmbeddedPostgres } from '../../apps/api/src/platform/database/index.js';
import { size } from '../support/size.js';
import { databasePid, freePort, root, runs, Start, underShell } from '../support/start.js';
import { ownFolder } from '../support/folder.js';

describe('a start', () => {
  let folder: string;
  let port: number;
  let started: Start[];
  const start = (command?: readonly [string, ...string[]], env: Record<string, string> = {}): Start => {
    const one = new Start(folder, Number(env['PORT'] ?? port), command, env);
    started.push(one);
    return one;
  };

  /** A database that a start made and left in order, to be copied where a test is not about the making. */
  let made: string;
  beforeAll(async () => {
    made = path.join(await ownFolder('made-'), 'data');
    const one = new Start(made, await freePort());
    await one.ready();
    await one.stop();
  });
  afterAll(() => rm(path.dirname(made), { recursive: true, maxRetries: 20 }));
  /** With its owners and modes: under root the database has an account of its own. */
  const copied = (): Promise<unknown> => promisify(execFile)('cp', ['-a', made, folder]);

  beforeEach(async () => {
    folder = path.join(await ownFolder('start-'), 'data'); // only its owner may enter: under root, the database's account must be let through
    port = await freePort();
    started = [];
  });
  afterEach(async () => {
    for (const one of started) await one.stop();
    const left = await databasePid(folder).catch(() => 0);
    if (left > 0 && (await runs(left))) process.kill(left, 'SIGINT');
    await rm(path.dirname(folder), { recursive: true, maxRetries: 20 });
  });

  it('at the same moment as another: one serves, the other finds it', async () => {
    const both = [start(), start(undefined, { PORT: String(await freePort()) })];
    await Promise.race(both.map((one) => one.ready()));
    const codes = await Promise.race(both.map((one) => one.ended));
    expect(codes).toBe(0);
    expect(both.map((one) => /running already/.test(one.output)).sort()).toEqual([false, true]);
    expect(both.map((one) => /making a new database/.test(one.output)).sort()).toEqual([false, true]);
  });

  it('after a kill takes over the database that still runs, again and again; ends, and says why, when that is ended under it; and recovers', async () => {
    await copied();
    await start().ready();
    const database = await databasePid(folder);
    for (let time = 0; time < size(2, 6); time += 1) {
      started.at(-1)?.kill('SIGKILL');
      await started.at(-1)?.ended;
      const next = start();
      await next.ready('found the database still running from before');
      expect(await next.health()).toMatchObject({ status: 'ready' });
      expect(await next.databasePid()).toBe(database);
    }
    process.kill(database, 'SIGKILL');
    const over = started.at(-1);
    expect(await over?.ended).toBe(1);
    expect(over?.output).toMatch(/The database ended, and nobody asked it to/);
    const next = start();
    await next.ready();
    expect(await next.health()).toMatchObject({ status: 'ready' });
    const own = await databasePid(folder);
    expect(await next.stop()).toBe(0);
    expect(await runs(own)).toBe(false);
  });

  it('after one that was killed while it made the database begins anew and clears away', async () => {
    const first = start();
    await first.says(/making a new database/);
    first.kill('SIGKILL');
    await first.ended;
    expect((await readdir(folder)).filter((name) => name.startsWith('postgres.new-'))).toHaveLength(1);
    const next = start();
    await next.ready('making a new database');
    expect((await readdir(folder)).sort()).toEqual(['keys', 'postgres', 'running.json']);
  });

  it('with a key for seals that others can read is refused with what to do, and leaves nothing running', async () => {
    await copied();
    await chmod(path.join(folder, 'keys/seal.key'), 0o644);
    const first = start();
    expect(await first.ended).toBe(1);
    expect(first.output).toMatch(/The key for seals cannot be used: .*seal\.key can be read by others.*\n$/);
    expect(first.output).not.toMatch(/ s {2}ready/);
    expect(await databasePid(folder).catch(() => 'none')).toBe('none');
  });

  it('is not kept away by numbers of processes that are now other programs', async () => {
    await copied();
    const other = String(process.pid);
    await writeFile(path.join(folder, 'postgres/postmaster.pid'), `${other}\n`);
    await writeFile(
      path.join(folder, 'running.json'),
      JSON.stringify({ pid: process.pid, born: 'before the last boot', instance: 'gone', url: `http://127.0.0.1:${port}` }),
    );
    const next = start();
    await next.ready();
    expect(await next.health()).toMatchObject({ status: 'ready' });
  });

  const points = [/making a new database/, /starting the database/, /migrated: /];
  it.each(points.slice(0, size(1, points.length)))(
    'ended when it had come as far as %s leaves nothing running, and the next one is well',
    async (far) => {
      const first = start();
      await first.says(far);
      expect(await first.stop()).toBe(0);
      expect((await readdir(folder)).filter((name) => name !== 'postgres')).toEqual([]);
      expect(await databasePid(folder).catch(() => 'none')).toBe('none');
      const next = start();
      await next.ready();
      expect(await next.health()).toMatchObject({ status: 'ready' });
    },
  );

  it('ends when the shell that npm put above it is ended', async () => {
    await copied();
    const first = start(underShell, { npm_lifecycle_event: 'start' });
    await first.ready();
    const database = await first.databasePid();
    first.kill('SIGTERM');
    await first.says(/stopping/);
    await first.ended; // its output closes when the last process that holds it has ended
    expect([await runs(database), existsSync(path.join(folder, 'running.json'))]).toEqual([false, false]);
  });

  it('ends, and says why, when the database is ended under it, and after a power cut recovers', async () => {
    await copied();
    const first = start();
    await first.ready();
    process.kill(await first.databasePid(), 'SIGKILL');
    expect(await first.ended).toBe(1);
    expect(first.output).toMatch(/The database ended, and nobody asked it to/);
    const cut = start();
    await cut.ready();
    cut.kill('SIGKILL');
    process.kill(await cut.databasePid(), 'SIGKILL');
    await cut.ended;
    const next = start();
    await next.ready();
    expect(await next.health()).toMatchObject({ status: 'ready' });
  });

  it('says so when the port is another program’s, and leaves nothing running', async () => {
    const other = createServer((_, response) => response.end('hello'));
    await new Promise<void>((resolve) => {
      other.listen(port, '127.0.0.1', resolve);
    });
    const first = start();
    expect(await first.ended).toBe(1);
    expect(first.output).toMatch(new RegExp(`Port ${port} is taken by another program`));
    expect(await readdir(folder)).toEqual([]);
    await new Promise((resolve) => {
      other.close(resolve);
    });
  });

  it('says so when the folder holds something else', async () => {
    await mkdir(path.join(folder, 'postgres'), { recursive: true });
    await writeFile(path.join(folder, 'postgres/recipes.txt'), 'flour, water, salt');
    const first = start();
    expect(await first.ended).toBe(1);
    expect(first.output).toMatch(/holds something that is not a database/);
  });

  it('names a setting that cannot be used', async () => {
    const first = start(undefined, { PORT: 'three thousand' });
    expect(await first.ended).toBe(1);
    expect(first.output).toMatch(/These settings cannot be used: PORT/);
  });
});

describe('a service that was started from nothing', () => {
  let folder: string;
  let port: number;
  let first: Start;
  const verify = [process.execPath, path.join(root, 'libs/tooling/bin/records.mjs'), 'verify'] as const;
  const start = (command?: readonly [string, ...string[]], env: Record<string, string> = {}): Start =>
    new Start(folder, Number(env['PORT'] ?? port), command, env);
  beforeAll(async () => {
    folder = path.join(await ownFolder('start-'), 'data');
    port = await freePort();
    first = start();
    await first.ready();
  });
  afterAll(async () => {
    await first.stop();
    await rm(path.dirname(folder), { recursive: true, maxRetries: 20 });
  });

  it('makes a database, serves and says where', async () => {
    await first.says(/Bakehouse Ledger {3}http:\/\/localhost:/);
    expect(first.output).toMatch(/making a new database[^]*migrated: 20261126200000_roles_and_organisation[^]*ready/);
    expect(await first.health()).toMatchObject({ status: 'ready', database: 'answers', migrations: 'up-to-date', says: null });
  });

  it('is connected to the database as the service’s role alone once it serves', async () => {
    // a connection that is only just being made is nobody’s yet
    const url = await EmbeddedPostgres.urlOfRunning(path.join(folder, 'postgres'), 'bakehouse');
    const { rows } = await connected(url ?? '', (owner) =>
      owner.query(
        "SELECT DISTINCT usename FROM pg_stat_activity WHERE backend_type = 'client backend' AND pid <> pg_backend_pid() AND usename IS NOT NULL",
      ),
    );
    expect(rows).toEqual([{ usename: 'bakehouse_service' }]);
  });

  it('beside a running one finds it, says so and ends well', async () => {
    const second = start(undefined, { PORT: String(await freePort()) });
    expect(await second.ended).toBe(0);
    expect(second.output).toMatch(new RegExp(`Bakehouse Ledger is running already: http://127\\.0\\.0\\.1:${port}\n`));
  });

  it('has commands that work beside it', async () => {
    const beside = start(verify);
    expect(await beside.ended).toBe(0);
    expect(beside.output).toMatch(/There are no books yet\./);
    expect(await first.health()).toMatchObject({ status: 'ready' });
  });

  it('ends once when Ctrl-C arrives twice, from the terminal and from npm, and leaves nothing running', async () => {
    const database = await first.databasePid();
    first.kill('SIGINT');
    await first.says(/stopping/); // two that are pending at once would count as one
    first.kill('SIGINT');
    expect(await first.ended).toBe(0);
    expect([await runs(database), existsSync(path.join(folder, 'running.json'))]).toEqual([false, false]);
  });

  it('has commands that work without it', async () => {
    const without = start(verify);
    expect(await without.ended).toBe(0);
    expect(without.output).toMatch(/There are no books yet\./);
    expect(await databasePid(folder).catch(() => 'none')).toBe('none');
  });
});
