import path from 'node:path';
import pg from 'pg';
import type { Config } from '../config/index.js';
import { errorCode } from '../errors/index.js';
import { EmbeddedPostgres } from './embedded/embedded-postgres.js';
import { migrate } from './migrations.js';
import { ensureServiceRole, refuseSuperuser, serviceUrlFrom } from './roles.js';
import { valueTypes } from './types.js';

export interface Database {
  readonly ownerUrl: string;
  readonly serviceUrl: string;
  readonly embedded: boolean;
  /** The migrations that this start applied. */
  readonly applied: readonly string[];
  /** Ends what was started for it; the server of a DATABASE_URL is left alone. */
  stop(): Promise<void>;
}

interface StartOptions {
  readonly say?: (line: string) => void;
  readonly onLost?: () => void;
}

type DatabaseSettings = Pick<Config, 'DATA_DIR' | 'DATABASE_URL' | 'SERVICE_DATABASE_URL'>;

/** The database of the settings, started if it is our own, up to date, its fence checked. */
export async function openDatabase(config: DatabaseSettings, options: StartOptions = {}): Promise<Database> {
  const server = await startServer(config, options);
  try {
    return { ...(await prepareDatabase(server.ownerUrl, config.SERVICE_DATABASE_URL)), embedded: server.embedded, stop: server.stop };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

/** The server of the settings with a database that nothing was done to: no migration was applied. */
export async function startServer(
  config: DatabaseSettings,
  options: StartOptions = {},
): Promise<Pick<Database, 'ownerUrl' | 'embedded' | 'stop'>> {
  const external = config.DATABASE_URL;
  if (external !== undefined) return { ownerUrl: external, embedded: false, stop: async () => undefined };
  const server = await EmbeddedPostgres.start({ cluster: path.join(config.DATA_DIR, 'postgres'), ...options });
  try {
    await createDatabase(server.url('postgres'), 'bakehouse');
  } catch (error) {
    await server.stop();
    throw error;
  }
  return { ownerUrl: server.url('bakehouse'), embedded: true, stop: () => server.stop() };
}

/** The database of a service that is running beside us: used, and left running. Undefined where none runs. */
export async function joinDatabase(config: Pick<Config, 'DATA_DIR'>): Promise<Database | undefined> {
  const url = await EmbeddedPostgres.urlOfRunning(path.join(config.DATA_DIR, 'postgres'), 'bakehouse');
  return url === undefined
    ? undefined
    : { ownerUrl: url, serviceUrl: serviceUrlFrom(url), embedded: true, applied: [], stop: async () => undefined };
}

/** Role, migrations (all, or only those that are named), fence. With a service's URL of its own the role's password is somebody else's to set. */
export async function prepareDatabase(
  ownerUrl: string,
  givenServiceUrl?: string,
  only?: ReadonlySet<string>,
): Promise<Pick<Database, 'ownerUrl' | 'serviceUrl' | 'applied'>> {
  const serviceUrl = givenServiceUrl ?? serviceUrlFrom(ownerUrl);
  const derivedUrl = givenServiceUrl === undefined ? serviceUrl : undefined;
  const applied = await connected(ownerUrl, (owner) => migrate(owner, undefined, () => ensureServiceRole(owner, derivedUrl), only));
  await connected(serviceUrl, refuseSuperuser);
  return { ownerUrl, serviceUrl, applied };
}

/** Makes a database if it is not there, as a copy of another where one is named. */
export async function createDatabase(adminUrl: string, name: string, template?: string): Promise<void> {
  await connected(adminUrl, async (admin) => {
    const { rowCount } = await admin.query('SELECT FROM pg_database WHERE datname = $1', [name]);
    if (rowCount === 0)
      await admin.query(
        `CREATE DATABASE ${admin.escapeIdentifier(name)}${template === undefined ? '' : ` TEMPLATE ${admin.escapeIdentifier(template)}`}`,
      );
  });
}

/** Runs `work` on one connection of its own. */
export async function connected<T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({
    connectionString: url,
    pipeline: true,
    application_name: 'bakehouse-ledger setup',
    connectionTimeoutMillis: 10_000,
    types: valueTypes,
  });
  try {
    await client.connect();
    return await work(client);
  } catch (error) {
    throw plainly(error, url);
  } finally {
    await client.end().catch(() => undefined);
  }
}

function plainly(error: unknown, url: string): unknown {
  const code = errorCode(error);
  const { host, pathname, username } = new URL(url);
  if (code === 'ECONNREFUSED' || code === 'ENOTFOUND' || code === 'ETIMEDOUT')
    return new Error(`No database answers at ${host}.`, { cause: error });
  if (code === '28P01' || code === '28000')
    return new Error(`The database at ${host} does not let ${username} in: its password is another.`, { cause: error });
  if (code === '3D000') return new Error(`The server at ${host} has no database ${pathname.slice(1)}. Make it first.`, { cause: error });
  return error;
}
