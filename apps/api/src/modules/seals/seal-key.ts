import { randomBytes } from 'node:crypto';
import { chmod, link, mkdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Inject, Injectable } from '@nestjs/common';
import { publicKeyOf, verifierKey } from '@bakehouse/ledger';
import { CONFIG, type Config } from '../../platform/config/index.js';
import { errorCode } from '../../platform/errors/index.js';

const seedBytes = 32;

/** The installation's signing key: from the settings, or made once and kept in a file that only its owner may read. Nothing hands it out. */
@Injectable()
export class SealKey {
  private asked: Promise<Uint8Array> | undefined;

  constructor(@Inject(CONFIG) private readonly config: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>) {}

  /** The Ed25519 seed. Read or made when it is first needed, and then kept. */
  seed(): Promise<Uint8Array> {
    return (this.asked ??= this.find().catch((error: unknown) => {
      this.asked = undefined;
      throw error;
    }));
  }

  /** What anybody checks this book's seals with. */
  async verifierKey(origin: string): Promise<string> {
    return verifierKey(origin, publicKeyOf(await this.seed()));
  }

  private async find(): Promise<Uint8Array> {
    const { SEAL_KEY } = this.config;
    return SEAL_KEY === undefined ? keptSeed(fileOf(this.config)) : given(SEAL_KEY);
  }
}

const fileOf = ({ DATA_DIR }: Pick<Config, 'DATA_DIR'>): string => path.join(DATA_DIR, 'keys', 'seal.key');
const given = (key: string): Uint8Array => new Uint8Array(Buffer.from(key, 'base64'));

/** What the seals of a book are checked with here; none is made where there is none. */
export async function verifierKeys(config: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>): Promise<((origin: string) => string) | undefined> {
  const seed = config.SEAL_KEY === undefined ? await read(fileOf(config)) : given(config.SEAL_KEY);
  if (!seed) return undefined;
  const publicKey = publicKeyOf(seed);
  return (origin) => verifierKey(origin, publicKey);
}

/** The key that seals are made with here, in base64, for a backup; null where there is none yet, and none is made. */
export async function sealKeyToKeep({ SEAL_KEY, ...config }: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>): Promise<string | null> {
  const seed = SEAL_KEY === undefined ? await read(fileOf(config)) : given(SEAL_KEY);
  return seed === undefined ? null : Buffer.from(seed).toString('base64');
}

/** Puts a backup's key where seals are made with it, unless another is there already or in the settings: that one stays. */
export async function putSealKey(config: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>, key: string): Promise<'put' | 'same' | 'another'> {
  const here = await sealKeyToKeep(config);
  if (here !== null) return here === key ? 'same' : 'another';
  await keptSeed(fileOf(config), given(key));
  return 'put';
}

/**
 * The key of a file, made where there is none. Two processes that start at once end with the same: the file appears whole or not at all.
 * @throws where others may read it, or it holds no key
 */
export async function keptSeed(file: string, seed: Uint8Array = randomBytes(seedBytes)): Promise<Uint8Array> {
  const there = await read(file);
  if (there) return there;
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  const made = `${file}.${randomBytes(6).toString('hex')}`;
  await writeFile(made, `${Buffer.from(seed).toString('base64')}\n`, { mode: 0o600, flag: 'wx' });
  try {
    await chmod(made, 0o600); // the mode above is cut by the process's mask, never widened; this also holds where the folder's rules widen it
    await link(made, file);
  } catch (error) {
    if (errorCode(error) !== 'EEXIST') throw error;
  } finally {
    await rm(made);
  }
  const kept = await read(file);
  if (!kept) throw new Error(`the key for seals could not be kept in ${file}`);
  return kept;
}

async function read(file: string): Promise<Uint8Array | undefined> {
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
