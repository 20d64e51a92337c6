import { execFile } from 'node:child_process';
import { chmod, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import type { Client } from 'pg';
import {
  connected,
  createDatabase,
  EmbeddedPostgres,
  prepareDatabase,
  serviceUrlFrom,
} from '../../apps/api/src/platform/database/index.js';
import type { TestDatabase } from './database.js';
import { ownFolder } from './folder.js';

/** A process is killed here and no power is cut: what was written is in the system's cache, and need not wait for a disk. */
const quick = { fsync: 'off', shared_buffers: '32MB', max_connections: '40' };

/** A PostgreSQL that archives its log, with a copy of its folder to begin others from; what an operator does with pg_basebackup, which ours comes without. */
export class Archived {
  private readonly started: EmbeddedPostgres[] = [];
  private constructor(
    private readonly base: string,
    readonly primary: EmbeddedPostgres,
  ) {
    this.started.push(primary);
  }

  static async start(): Promise<Archived> {
    const base = await ownFolder('bakehouse-archived-');
    await chmod(base, 0o711); // under root the server has an account of its own
    await mkdir(path.join(base, 'archive'));
    await chmod(path.join(base, 'archive'), 0o777);
    const to = path.join(base, 'archive');
    const settings = { ...quick, archive_mode: 'on', archive_command: `test ! -f ${to}/%f && cp %p ${to}/%f` };
    const primary = await EmbeddedPostgres.start({ cluster: path.join(base, 'primary'), settings });
    const it = new Archived(base, primary);
    await createDatabase(primary.url('postgres'), 'bakehouse');
    await prepareDatabase(primary.url('bakehouse'));
    await connected(primary.url('postgres'), (owner) => it.copyBase(owner));
    return it;
  }

  databaseOf(server: EmbeddedPostgres): TestDatabase {
    const ownerUrl = server.url('bakehouse');
    return { ownerUrl, serviceUrl: serviceUrlFrom(ownerUrl), drop: async () => undefined };
  }

  /** A standby that the primary waits for with every commit, from now on. */
  async standby(): Promise<EmbeddedPostgres> {
    const url = new URL(this.primary.url('postgres'));
    const from = `host=127.0.0.1 port=${url.port} user=${url.username} password=${decodeURIComponent(url.password)} application_name=standby`;
    const standby = await this.begun('standby', 'standby.signal', { primary_conninfo: from });
    await connected(this.primary.url('postgres'), async (owner) => {
      await owner.query("ALTER SYSTEM SET synchronous_standby_names = 'standby'");
      await owner.query('SELECT pg_reload_conf()');
      await untilTrue(owner, "SELECT EXISTS (SELECT FROM pg_stat_replication WHERE sync_state = 'sync') AS yes");
    });
    return standby;
  }

  /** Another server from the copy and what was archived since, once it has played all of that. */
  async fromArchive(): Promise<EmbeddedPostgres> {
    const restore_command = `cp ${path.join(this.base, 'archive')}/%f %p`;
    const server = await this.begun('restored', 'recovery.signal', { restore_command });
    await connected(server.url('postgres'), (owner) => untilTrue(owner, 'SELECT NOT pg_is_in_recovery() AS yes'));
    return server;
  }

  /** Has the log up to now archived, as archive_timeout does by itself. */
  async archiveNow(): Promise<void> {
    await connected(this.primary.url('postgres'), async (owner) => {
      const { rows } = await owner.query<{ file: string }>('SELECT pg_walfile_name(pg_switch_wal()) AS file');
      await untilTrue(owner, `SELECT coalesce(last_archived_wal >= '${rows[0]?.file}', false) AS yes FROM pg_stat_archiver`);
    });
  }

  async stop(): Promise<void> {
    for (const server of this.started) await server.stop();
    await rm(this.base, { recursive: true, maxRetries: 20 });
  }

  private async begun(name: string, signal: string, settings: Readonly<Record<string, string>>): Promise<EmbeddedPostgres> {
    const cluster = path.join(this.base, name);
    await promisify(execFile)('cp', ['-a', path.join(this.base, 'copy'), cluster]);
    await writeForServer(path.join(cluster, signal), '');
    const server = await EmbeddedPostgres.start({ cluster, settings: { ...quick, ...settings } });
    this.started.push(server);
    return server;
  }

  private async copyBase(owner: Client): Promise<void> {
    const [from, to] = [path.join(this.base, 'primary'), path.join(this.base, 'copy')];
    await owner.query("SELECT pg_backup_start('copy', true)");
    await promisify(execFile)('cp', ['-a', from, to]);
    const { rows } = await owner.query<{ labelfile: string }>('SELECT labelfile FROM pg_backup_stop(true)');
    await writeForServer(path.join(to, 'backup_label'), rows[0]?.labelfile ?? '');
    for (const gone of ['postmaster.pid', 'postmaster.opts']) await rm(path.join(to, gone), { force: true });
    for (const file of await readdir(path.join(to, 'pg_wal'))) if (/^[0-9A-F]{24}/.test(file)) await rm(path.join(to, 'pg_wal', file)); // comes from the archive or the primary
  }
}

/** Under root the server is another account, and has to be able to write it. */
async function writeForServer(file: string, text: string): Promise<void> {
  await writeFile(file, text);
  await chmod(file, 0o666);
}

async function untilTrue(client: Client, sql: string): Promise<void> {
  for (let yes = false; !yes;) yes = (await client.query<{ yes: boolean }>(sql)).rows[0]?.yes === true;
}
