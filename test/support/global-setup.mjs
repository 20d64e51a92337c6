// Plain JavaScript: Jest loads global set-up outside its module system, without transforms or moduleNameMapper.
import { chmod, mkdtemp, readdir, readFile, rm, statfs, writeFile } from 'node:fs/promises';
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
  process.env.BAKEHOUSE_TEST_FOLDER = base;
  return base;
}

async function start() {
  const { EmbeddedPostgres, createDatabase, prepareDatabase } = await tsImport(
    '../../apps/api/src/platform/database/for-tools.ts',
    import.meta.url,
  );
  await clearAfterKilledRuns(EmbeddedPostgres);
  const base = await mkdtemp(path.join(await quickestPlace(), prefix));
  await chmod(base, 0o711); // under root, PostgreSQL runs as another account that must get in
  await writeFile(path.join(base, 'owner'), String(process.pid));
  const settings = {
    fsync: 'off',
    synchronous_commit: 'off',
    full_page_writes: 'off',
    max_connections: '300',
    shared_buffers: '64MB',
    max_wal_size: '256MB',
  };
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

const inMemory = '/dev/shm'; // where Linux keeps files that are never written to a disk
const gigabyte = 2 ** 30;

/**
 * Each test copies a database of many small files, which costs a file system on a disk ten times what it costs one in memory, where there is room for
 * it: a container may have next to none. The full size of the tests is for a disk.
 */
async function quickestPlace() {
  if (process.env.TEST_SIZE === 'full' || process.availableMemory() < 6 * gigabyte) return tmpdir();
  const room = await statfs(inMemory).then(
    ({ bavail, bsize }) => bavail * bsize,
    () => 0,
  );
  return room < 4 * gigabyte ? tmpdir() : inMemory;
}

/** A run that was killed outright left its server and its folder behind. */
async function clearAfterKilledRuns(EmbeddedPostgres) {
  const names = await Promise.all(
    [inMemory, tmpdir()].map(async (place) => (await readdir(place).catch(() => [])).map((name) => path.join(place, name))),
  );
  for (const base of names.flat().filter((n) => path.basename(n).startsWith(prefix))) {
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
