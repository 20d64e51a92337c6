import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chmod, chown, mkdir, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import { childEnvironment } from '../../config/index.js';
import { randomToken } from '../../ids/index.js';
import { giveTo, type Account } from './account.js';
import type { Binaries } from './binaries.js';

const run = promisify(execFile);
const secretFile = 'bakehouse.secret';

/** The role that owns everything in a database of our own. */
export const ownerRole = 'bakehouse_owner';

/** The owner's password, which each installation has for itself. */
export async function ownerPassword(cluster: string): Promise<string> {
  return (await readFile(path.join(cluster, secretFile), 'utf8')).trim();
}

/** Makes the cluster if there is none. It is made beside its place and moved there whole: one that was cut off half-way is cleared away. */
export async function initialise(cluster: string, bin: Binaries, account: Account | undefined, say: (line: string) => void): Promise<void> {
  const home = path.dirname(cluster);
  const begun = `${path.basename(cluster)}.new-`;
  const left = (await readdir(home)).filter((name) => name.startsWith(begun));
  for (const name of left) await rm(path.join(home, name), { recursive: true, force: true, maxRetries: 5 }); // its initdb may still be writing
  if (existsSync(path.join(cluster, 'PG_VERSION'))) return;
  await refuseIfFilled(cluster);
  const workshop = await mkdtemp(path.join(home, begun));
  await chmod(workshop, 0o711);
  say('making a new database');
  const made = path.join(workshop, 'cluster');
  const password = randomToken();
  await initdb(workshop, made, password, bin, account);
  await writeFile(path.join(made, secretFile), `${password}\n`, { mode: 0o600 });
  if (account) await giveTo(made, account);
  await rm(cluster, { recursive: true, force: true });
  await rename(made, cluster);
  await rm(workshop, { recursive: true, force: true });
}

async function refuseIfFilled(cluster: string): Promise<void> {
  const there = await readdir(cluster).catch((): string[] => []);
  if (there.length > 0)
    throw new Error(`${cluster} holds something that is not a database. Move it away, or set DATA_DIR to another folder.`);
}

async function initdb(workshop: string, cluster: string, password: string, bin: Binaries, account: Account | undefined): Promise<void> {
  const passwordFile = path.join(workshop, 'password');
  await writeFile(passwordFile, `${password}\n`, { mode: 0o600 });
  await mkdir(cluster, { mode: 0o700 });
  if (account) for (const file of [passwordFile, cluster]) await chown(file, account.uid, account.gid);
  await run(
    bin.initdb,
    [
      '-D',
      cluster,
      '-U',
      ownerRole,
      `--pwfile=${passwordFile}`,
      '--auth=scram-sha-256',
      '--encoding=UTF8',
      '--locale-provider=builtin',
      '--builtin-locale=C.UTF-8',
      '--locale=C',
      '--no-instructions',
    ],
    { ...(account && { uid: account.uid, gid: account.gid }), cwd: workshop, env: childEnvironment({ LC_ALL: 'C' }) },
  );
}
