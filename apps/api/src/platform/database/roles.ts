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
    throw new Error('DATABASE_URL carries no password to derive the service’s from. Give SERVICE_DATABASE_URL as well.');
  const password = createHmac('sha256', decodeURIComponent(url.password)).update(serviceRole).digest('base64url');
  url.username = serviceRole;
  url.password = password;
  return url.toString();
}

/** Makes the role if it is missing and, where it logs in with the derived password, lets it. Run as the owner, under the migrations' lock. */
export async function ensureServiceRole(owner: pg.Client, derivedUrl: string | undefined): Promise<void> {
  try {
    const { rowCount } = await owner.query('SELECT FROM pg_roles WHERE rolname = $1', [serviceRole]);
    if (rowCount === 0) await owner.query(`CREATE ROLE ${serviceRole} NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE INHERIT`);
    if (derivedUrl === undefined || (await canLogIn(derivedUrl))) return;
    const password = owner.escapeLiteral(decodeURIComponent(new URL(derivedUrl).password));
    await owner.query(`ALTER ROLE ${serviceRole} LOGIN PASSWORD ${password}`);
  } catch (cause) {
    throw new Error(
      `The role ${serviceRole} could not be made ready (${errorMessage(cause)}). Have an administrator make it, and give SERVICE_DATABASE_URL.`,
      { cause },
    );
  }
}

async function canLogIn(url: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: url });
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
}

/**
 * Refuses to go on with a service's login that could pass the fence: by what it is, by what it may become, or by what it owns.
 * @throws with a sentence
 */
export async function refuseSuperuser(service: pg.ClientBase): Promise<void> {
  const { rows } = await service.query<Powers>(`
    SELECT current_user AS who,
      (SELECT min(rolname) FROM pg_roles WHERE pg_has_role(current_user, oid, 'MEMBER') AND (rolsuper OR rolbypassrls OR rolcreaterole)) AS superuser,
      (SELECT min(format('%I.%I', n.nspname, c.relname)) FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
        WHERE pg_has_role(current_user, c.relowner, 'MEMBER') AND n.nspname NOT LIKE 'pg\\_%' AND n.nspname <> 'information_schema') AS owns`);
  const powers = rows[0];
  if (!powers) throw new Error('The service’s login could not be examined.');
  const advice = `Let SERVICE_DATABASE_URL log in as a role that is a member of ${serviceRole} and of nothing else.`;
  if (powers.superuser !== null)
    throw new Error(
      `The service will not run as ${powers.who}: through ${powers.superuser} it could pass the fence between businesses. ${advice}`,
    );
  if (powers.owns !== null)
    throw new Error(
      `The service will not run as ${powers.who}: it owns ${powers.owns}, and an owner passes the fence between businesses. ${advice}`,
    );
}
