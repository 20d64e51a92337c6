import { execFile } from 'node:child_process';
import { chmod, chown, lstat, readdir } from 'node:fs/promises';
import { userInfo } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** The account that PostgreSQL runs as where we are root, which it refuses to be. */
export interface Account {
  readonly name: string;
  readonly uid: number;
  readonly gid: number;
}

/** An existing account without privileges; undefined where our own will do. Nothing is created on the system. */
export async function unprivilegedAccount(): Promise<Account | undefined> {
  if (process.platform === 'win32' || userInfo().uid !== 0) return undefined;
  for (const name of ['postgres', 'node', 'nobody']) {
    const ids = await Promise.all([run('id', ['-u', name]), run('id', ['-g', name])]).catch(() => undefined);
    if (ids) return { name, uid: Number(ids[0].stdout), gid: Number(ids[1].stdout) };
  }
  throw new Error(
    'PostgreSQL will not run as root, and no account postgres, node or nobody exists to run it as. Start as an ordinary user, or set DATABASE_URL.',
  );
}

/** Lets the account walk through the folders above `folder`, without letting it read them, and says which it opened. */
export async function openPathTo(folder: string, account: Account, say: (line: string) => void): Promise<void> {
  for (let at = path.dirname(folder); at !== path.dirname(at); at = path.dirname(at)) {
    const { mode, uid, gid } = await lstat(at);
    const bit = uid === account.uid ? 0o100 : gid === account.gid ? 0o010 : 0o001;
    if (mode & bit) continue;
    await chmod(at, mode | bit);
    say(`PostgreSQL runs as ${account.name} because it refuses to be root: ${at} may now be walked through (not read) by it.`);
  }
}

/** Gives a folder and all in it to the account. */
export async function giveTo(folder: string, account: Account): Promise<void> {
  await chown(folder, account.uid, account.gid);
  for (const entry of await readdir(folder, { recursive: true })) await chown(path.join(folder, entry), account.uid, account.gid);
}
