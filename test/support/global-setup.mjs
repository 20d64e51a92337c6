// Plain JavaScript: Jest loads global set-up outside its module system, without transforms or moduleNameMapper.
import { chmod, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { tsImport } from 'tsx/esm/api';

const prefix = 'bakehouse-test-';

/**
 * One PostgreSQL server for the whole run and one migrated template database, which each test copies. Jest calls each set-up file
 * once a run, and the browser's calls this one too: the first call starts it, the other counts. Gives the run's own folder.
 */
export default async function setup() {
  const run = (globalThis.bakehouseTestRun ??= { users: 0, started: undefined });
  run.users += 1;
  run.started ??= start();
  const { server, base } = await run.started;
  process.env.BAKEHOUSE_TEST_SERVER = server.url('postgres');
  return base;
}

async function start() {
  const { EmbeddedPostgres, createDatabase, prepareDatabase } = await tsImport(
    '../../apps/api/src/platform/database/for-tools.ts',
    import.meta.url,
  );
  await clearAfterKilledRuns(EmbeddedPostgres);
  const base = await mkdtemp(path.join(tmpdir(), prefix));
  await chmod(base, 0o711); // under root, PostgreSQL runs as another account that must get in
  await writeFile(path.join(base, 'owner'), String(process.pid));
  const settings = { fsync: 'off', synchronous_commit: 'off', full_page_writes: 'off', max_connections: '300', shared_buffers: '64MB' };
  const server = await EmbeddedPostgres.start({ cluster: path.join(base, 'postgres'), settings });
  process.once('exit', () => {
    // an interrupted run gets no teardown
    try {
      process.kill(server.pid, 'SIGINT');
    } catch {
      /* it has ended already */
    }
  });
  await createDatabase(server.url('postgres'), 'bakehouse_template');
  await prepareDatabase(server.url('bakehouse_template'));
  return { server, base };
}

/** A run that was killed outright left its server and its folder behind. */
async function clearAfterKilledRuns(EmbeddedPostgres) {
  for (const name of (await readdir(tmpdir())).filter((n) => n.startsWith(prefix))) {
    const base = path.join(tmpdir(), name);
    const owner = Number(await readFile(path.join(base, 'owner'), 'utf8').catch(() => Number.NaN));
    if (Number.isNaN(owner) || exists(owner)) continue;
    await EmbeddedPostgres.start({ cluster: path.join(base, 'postgres') })
      .then((server) => server.stop())
      .catch(() => undefined);
    await rm(base, { recursive: true, force: true });
  }
}

function exists(pid) {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}
