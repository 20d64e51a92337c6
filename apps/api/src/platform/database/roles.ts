import { createHmac } from 'node:crypto';
import pg from 'pg';
import { errorMessage } from '../errors/index.js';
import type { Computed } from './row-types.js';

/** Whom the application logs in as: owns nothing, no superuser, held by row-level security. Migrations grant to it by this name. */
export const serviceRole = 'bakehouse_service';

/**
 * The service's URL of the owner's database. Its password follows from the owner's, so that any number of processes agree on it
 * and none has to store it.
 * @throws where the owner's URL carries no password
 */
export function serviceUrlFrom(ownerUrl: string): string {
  const url = new URL(ownerUrl);
  if (url.password === '')
    throw new Error('OWNER_DATABASE_URL carries no password to derive the service’s from. Give DATABASE_URL as well.');
  const password = createHmac('sha256', decodeURIComponent(url.password)).update(serviceRole).digest('base64url');
  url.username = serviceRole;
  url.password = password;
  return url.toString();
}

/**
 * Makes the role if it is missing and, where the service logs in as it and cannot yet, gives it that password. A login of somebody else's making, a member
 * of the role, is theirs. Run as the owner, under the migrations' lock.
 */
export async function ensureServiceRole(owner: pg.Client, serviceUrl: string): Promise<void> {
  try {
    const { rowCount } = await owner.query('SELECT FROM pg_roles WHERE rolname = $1', [serviceRole]);
    if (rowCount === 0) await owner.query(`CREATE ROLE ${serviceRole} NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE INHERIT`);
    await forgetOwnSettings(owner);
    const { username, password: given } = new URL(serviceUrl);
    if (username !== serviceRole || (await canLogIn(serviceUrl))) return;
    const password = owner.escapeLiteral(decodeURIComponent(given));
    await owner.query(`ALTER ROLE ${serviceRole} LOGIN PASSWORD ${password}`);
  } catch (cause) {
    throw new Error(
      `The role ${serviceRole} could not be made ready (${errorMessage(cause)}). Have an administrator make it, and give its login in DATABASE_URL.`,
      { cause },
    );
  }
}

/** A role may give itself settings, such as a time in which nothing can be answered: no connection of its own would get past that. */
async function forgetOwnSettings(owner: pg.Client): Promise<void> {
  const { rows } = await owner.query<{ database: Computed<string | null> }>(
    `SELECT d.datname AS database FROM pg_db_role_setting s JOIN pg_roles r ON r.oid = s.setrole LEFT JOIN pg_database d ON d.oid = s.setdatabase
     WHERE r.rolname = $1 AND (s.setdatabase = 0 OR d.datname = current_database())`,
    [serviceRole],
  );
  for (const { database } of rows)
    await owner.query(`ALTER ROLE ${serviceRole}${database === null ? '' : ` IN DATABASE ${owner.escapeIdentifier(database)}`} RESET ALL`);
}

async function canLogIn(url: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => undefined); // its end is no news once it was let in
  return client
    .connect()
    .then(
      () => true,
      () => false,
    )
    .finally(() => client.end());
}

interface Powers {
  readonly who: Computed<string>;
  readonly superuser: Computed<string | null>;
  readonly owns: Computed<string | null>;
  readonly changes: Computed<string | null>;
}

/** What the service may add to or read, and never change: a login that may was given more than its role has. */
const neverChanged = "'entry', 'entry_body', 'seal', '_prisma_migrations'";

/**
 * Refuses to go on with a service's login that could pass the fence or change what was recorded: by what it is, by what it may become, by what it owns, or by
 * what it was given.
 * @throws with a sentence
 */
export async function refuseMoreThanService(service: pg.ClientBase): Promise<void> {
  const { rows } = await service.query<Powers>(`
    SELECT current_user AS who,
      (SELECT min(rolname) FROM pg_roles WHERE pg_has_role(current_user, oid, 'MEMBER') AND (rolsuper OR rolbypassrls OR rolcreaterole OR rolreplication)) AS superuser,
      (SELECT min(format('%I.%I', n.nspname, c.relname)) FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
        WHERE pg_has_role(current_user, c.relowner, 'MEMBER') AND n.nspname NOT LIKE 'pg\\_%' AND n.nspname <> 'information_schema') AS owns,
      (SELECT min(relname) FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relname IN (${neverChanged})
        AND has_table_privilege(current_user, oid, 'UPDATE, DELETE, TRUNCATE')) AS changes`);
  const powers = rows[0];
  if (!powers) throw new Error('The service’s login could not be examined.');
  const advice =
    `Let DATABASE_URL log in as ${serviceRole}, or as a role that is a member of it and of nothing else; ` +
    'the owner belongs in OWNER_DATABASE_URL, for npm run records -- migrate alone.';
  const because =
    powers.superuser !== null
      ? `through ${powers.superuser} it could pass the fence between businesses`
      : powers.owns !== null
        ? `it owns ${powers.owns}, and an owner passes the fence between businesses`
        : powers.changes !== null
          ? `it may change what was recorded in ${powers.changes}`
          : undefined;
  if (because !== undefined) throw new Error(`The service will not run as ${powers.who}: ${because}. ${advice}`);
}
