import { Inject, Injectable } from '@nestjs/common';
import { publicKeyOf, sameBytes, verifierKey } from '@bakehouse/ledger';
import { CONFIG, type Config } from '../../platform/config/index.js';
import { fileOf, keptSeed, nextIsKey, readNext, readSeed } from './key-file.js';

type Settings = Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;

/** The installation's signing key: from the settings, or made once and kept in a file that only its owner may read. Nothing hands it out. */
@Injectable()
export class SealKey {
  private had: Promise<Uint8Array> | undefined;

  constructor(@Inject(CONFIG) private readonly config: Settings) {}

  /** The Ed25519 seed. A file is read each time, since another process may have changed the key; one is made only by a process that never had any. */
  async seed(): Promise<Uint8Array> {
    const { SEAL_KEY } = this.config;
    if (SEAL_KEY !== undefined) return given(SEAL_KEY);
    const file = fileOf(this.config);
    const there = await readSeed(file);
    if (there) this.had = Promise.resolve(there);
    return (this.had ??= keptSeed(file).catch((error: unknown) => {
      this.had = undefined;
      throw error;
    }));
  }

  /**
   * The seed of the key that was said last; of any, where nothing was said. A change that was said and not ended is ended here.
   * @throws where that key is not here: what another one signs would look forged
   */
  async seedOf(said: Uint8Array | undefined): Promise<Uint8Array> {
    const isIt = (seed: Uint8Array): boolean => said === undefined || sameBytes(publicKeyOf(seed), said);
    const seed = await this.seed();
    if (isIt(seed)) return seed;
    const next = this.config.SEAL_KEY === undefined ? await readNext(this.config) : undefined;
    if (next === undefined || !isIt(next)) throw new AnotherKey();
    await nextIsKey(this.config);
    return next;
  }

  /** What anybody checks a book's seals with, of which nothing was said yet. */
  async verifierKey(origin: string): Promise<string> {
    return verifierKey(origin, publicKeyOf(await this.seed()));
  }
}

/** The key that is here is not the one that the last statement names. */
export class AnotherKey extends Error {
  constructor() {
    super(
      'the key for seals was changed, and the key that is here is not the one that the last statement names; start the service with that one',
    );
  }
}

const given = (key: string): Uint8Array => new Uint8Array(Buffer.from(key, 'base64'));
/** The seed that is here; none is made where there is none. */
export const seedHere = ({ SEAL_KEY, ...config }: Settings): Promise<Uint8Array | undefined> =>
  SEAL_KEY === undefined ? readSeed(fileOf(config)) : Promise.resolve(given(SEAL_KEY));

/** What the seals of a book are checked with here; none is made where there is none. */
export async function verifierKeys(config: Settings): Promise<((origin: string) => string) | undefined> {
  const seed = await seedHere(config);
  if (!seed) return undefined;
  const publicKey = publicKeyOf(seed);
  return (origin) => verifierKey(origin, publicKey);
}

/** The key that seals are made with here, in base64, for a backup; null where there is none yet, and none is made. */
export async function sealKeyToKeep(config: Settings): Promise<string | null> {
  const seed = await seedHere(config);
  return seed === undefined ? null : Buffer.from(seed).toString('base64');
}

/** Puts a backup's key where seals are made with it, unless another is there already or in the settings: that one stays. */
export async function putSealKey(config: Settings, key: string): Promise<'put' | 'same' | 'another'> {
  const here = await sealKeyToKeep(config);
  if (here !== null) return here === key ? 'same' : 'another';
  await keptSeed(fileOf(config), given(key));
  return 'put';
}
