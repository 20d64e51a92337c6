import { randomBytes } from 'node:crypto';
import { chmod, link, mkdir, open, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Config } from '../../platform/config/index.js';
import { errorCode } from '../../platform/errors/index.js';

export const seedBytes = 32;

type Folder = Pick<Config, 'DATA_DIR'>;
export const fileOf = ({ DATA_DIR }: Folder): string => path.join(DATA_DIR, 'keys', 'seal.key');
/** Where the next key stands while the key is being changed: it is the key as soon as a statement that names it is in the database. */
const nextOf = (config: Folder): string => `${fileOf(config)}.next`;

/**
 * The key of a file, made where there is none. Two processes that start at once end with the same: the file appears whole or not at all.
 * @throws where others may read it, or it holds no key
 */
export async function keptSeed(file: string, seed: Uint8Array = randomBytes(seedBytes)): Promise<Uint8Array> {
  const there = await readSeed(file);
  if (there) return there;
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  const made = `${file}.${randomBytes(6).toString('hex')}`;
  await writeFile(made, `${Buffer.from(seed).toString('base64')}\n`, { mode: 0o600, flag: 'wx', flush: true });
  try {
    await chmod(made, 0o600); // the mode above is cut by the process's mask, never widened; this also holds where the folder's rules widen it
    await link(made, file);
  } catch (error) {
    if (errorCode(error) !== 'EEXIST') throw error;
  } finally {
    await rm(made);
  }
  const kept = await readSeed(file);
  if (!kept) throw new Error(`the key for seals could not be kept in ${file}`);
  return kept;
}

export async function readSeed(file: string): Promise<Uint8Array | undefined> {
  try {
    const { mode } = await stat(file);
    if (process.platform !== 'win32' && (mode & 0o077) !== 0)
      throw new Error(`${file} can be read by others than its owner: make it private (chmod 600), or have a new key made`);
    const bytes = Buffer.from(await readFile(file, 'utf8'), 'base64');
    if (bytes.length !== seedBytes) throw new Error(`${file} holds no key of ${seedBytes} bytes in base64`);
    return new Uint8Array(bytes);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

export const readNext = (config: Folder): Promise<Uint8Array | undefined> => readSeed(nextOf(config));

/** The next key, beside the one that is used; on the disk when this returns. */
export async function putNext(config: Folder): Promise<Uint8Array> {
  const seed = await keptSeed(nextOf(config));
  await folderOnDisk(config);
  return seed;
}

/** The next key is the key. Where another process was first, nothing is left to do. */
export async function nextIsKey(config: Folder): Promise<void> {
  await rename(nextOf(config), fileOf(config)).catch((error: unknown) => {
    if (errorCode(error) !== 'ENOENT') throw error;
  });
  await folderOnDisk(config);
}

export const dropNext = (config: Folder): Promise<void> => rm(nextOf(config), { force: true });

async function folderOnDisk(config: Folder): Promise<void> {
  if (process.platform === 'win32') return; // a folder cannot be opened there
  const handle = await open(path.dirname(fileOf(config)), 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
