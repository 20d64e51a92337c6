import path from 'node:path';
import pg from 'pg';
import { isOurOwn, type Config } from '../config/index.js';
import { errorCode } from '../errors/index.js';
import { EmbeddedPostgres } from './embedded/embedded-postgres.js';
import { demandMigrated, migrate } from './migrations.js';
import { ensureServiceRole, refuseMoreThanService, serviceUrlFrom } from './roles.js';
import { valueTypes } from './types.js';

/** A database as the service has it: up to date, and its login examined. */
export interface ServiceDatabase {
  readonly serviceUrl: string;
  /** Ends what was started for it; a server of somebody's is left alone. */
  stop(): Promise<void>;
}

/** The same with its owner's login: for migrations, and for commands that change more than the service may. */
export interface Database extends ServiceDatabase {
  readonly ownerUrl: string;
  /** The migrations that were applied when it was opened. */
  readonly applied: readonly string[];
}

interface StartOptions {
  readonly say?: (line: string) => void;
  readonly onLost?: () => void;
}

type DatabaseSettings = Pick<Config, 'DATA_DIR' | 'DATABASE_URL' | 'OWNER_DATABASE_URL'>;

/** The database of the settings as its owner, started if it is our own, brought up to date, its fence checked. */
export async function openDatabase(config: DatabaseSettings, options: StartOptions = {}): Promise<Database> {
  const server = await startServer(config, options);
  try {
    return { ...(await prepareDatabase(server.ownerUrl, config.DATABASE_URL)), stop: server.stop };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

/**
 * The database of a server of somebody's as the service's role.
 * @throws with a sentence where that role may more than the service's, or where migrations are missing
 */
export async function serviceDatabase(serviceUrl: string): Promise<ServiceDatabase> {
  await connected(serviceUrl, async (service) => {
    await refuseMoreThanService(service);
    await demandMigrated(service);
  });
  return { serviceUrl, stop: async () => undefined };
}

/** The server of the settings with a database that nothing was done to: no migration was applied. */
export async function startServer(config: DatabaseSettings, options: StartOptions = {}): Promise<Pick<Database, 'ownerUrl' | 'stop'>> {
  if (!isOurOwn(config)) {
    if (config.OWNER_DATABASE_URL === undefined)
      throw new Error(
        'This changes more than the service may: give the owner’s login for this command alone, OWNER_DATABASE_URL=postgresql://owner:…@…',
      );
    return { ownerUrl: config.OWNER_DATABASE_URL, stop: async () => undefined };
  }
  const server = await EmbeddedPostgres.start({ cluster: path.join(config.DATA_DIR, 'postgres'), ...options });
  try {
    await createDatabase(server.url('postgres'), 'bakehouse');
  } catch (error) {
    await server.stop();
    throw error;
  }
  return { ownerUrl: server.url('bakehouse'), stop: () => server.stop() };
}

/** The database of a service that is running beside us: used, and left running. Undefined where none runs. */
export async function joinDatabase(config: Pick<Config, 'DATA_DIR'>): Promise<Database | undefined> {
  const url = await EmbeddedPostgres.urlOfRunning(path.join(config.DATA_DIR, 'postgres'), 'bakehouse');
  return url === undefined ? undefined : { ownerUrl: url, serviceUrl: serviceUrlFrom(url), applied: [], stop: async () => undefined };
}

/** Role, migrations (all, or only those that are named), fence. Without a service's URL its password follows from the owner's. */
export async function prepareDatabase(
  ownerUrl: string,
  givenServiceUrl?: string,
  only?: ReadonlySet<string>,
): Promise<Pick<Database, 'ownerUrl' | 'serviceUrl' | 'applied'>> {
  const serviceUrl = givenServiceUrl ?? serviceUrlFrom(ownerUrl);
  const applied = await connected(ownerUrl, (owner) => migrate(owner, undefined, () => ensureServiceRole(owner, serviceUrl), only));
  await connected(serviceUrl, refuseMoreThanService);
  return { ownerUrl, serviceUrl, applied };
}

/** Makes a database if it is not there, as a copy of another where one is named: file by file, which is the cheapest for a small one with many tables. */
export async function createDatabase(adminUrl: string, name: string, template?: string): Promise<void> {
  await connected(adminUrl, async (admin) => {
    const { rowCount } = await admin.query('SELECT FROM pg_database WHERE datname = $1', [name]);
    if (rowCount === 0)
      await admin.query(
        `CREATE DATABASE ${admin.escapeIdentifier(name)}${template === undefined ? '' : ` TEMPLATE ${admin.escapeIdentifier(template)} STRATEGY file_copy`}`,
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
  client.on('error', () => undefined); // what ends the connection between two queries is told by the next one, and ends no process
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
