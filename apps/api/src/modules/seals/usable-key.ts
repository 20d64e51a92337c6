import { openNote, publicKeyOf, readVerifierKey, sameBytes, verifierKey } from '@bakehouse/ledger';
import type { Config } from '../../platform/config/index.js';
import { inTransaction } from '../../platform/database/index.js';
import { errorCode, errorMessage } from '../../platform/errors/index.js';
import { originOf } from '../../platform/ledger/index.js';
import { publicAfter } from './book-keys.js';
import { lastChanges } from './key-changes.query.js';
import { AnotherKey, SealKey, seedHere, verifierKeys } from './seal-key.js';
import { newestSeals, type Client } from './seals.query.js';
import { settleKey } from './turn-key.js';

type Settings = Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;

/** What the database tells of the key: the newest seal of each book of whose key nothing was said, and which keys were said last. */
export interface Known {
  readonly seals: () => Promise<readonly { readonly book: string; readonly note: string }[]>;
  readonly said: () => Promise<readonly (Uint8Array | undefined)[]>;
}

/** Ends or drops a change of the key that was cut off, and refuses to start without the key that is the key now. */
export async function demandSealKeyOf(client: Client, config: Settings): Promise<void> {
  await settleKey(client, config).catch(refuse(config));
  await demandSealKey(config, { seals: () => sealsOf(client), said: () => saidLast(client) });
}

const sealsOf = (client: Client): Promise<readonly { readonly book: string; readonly note: string }[]> =>
  inTransaction(client, () => newestSeals(client), 'BEGIN READ ONLY');

/** The key that was said last, of each book that has a statement. */
const saidLast = (client: Client): Promise<readonly (Uint8Array | undefined)[]> =>
  inTransaction(client, async () => (await lastChanges(client)).map(({ note }) => publicAfter(note)), 'BEGIN READ ONLY');

/** How the key that is here stands to what was sealed; nothing is made and nothing ended. `none`: nothing was sealed either. */
export type KeyState = 'right' | 'none' | 'away' | 'not-the-last' | 'signed-nothing';

export async function keyState(client: Client, config: Settings): Promise<KeyState> {
  const here = readVerifierKey((await verifierKeys(config))?.('any') ?? '')?.publicKey;
  const [said, seals] = [await saidLast(client), await sealsOf(client)];
  if (here === undefined) return said.length + seals.length > 0 ? 'away' : 'none';
  if (said.some((one) => one === undefined || !sameBytes(one, here))) return 'not-the-last';
  return signedNone(seals, here) ? 'signed-nothing' : 'right';
}

/** Not one of these was made with this key. One that cannot be read, or was changed, tells nothing of the key: that is for a verification. */
const signedNone = (seals: readonly { readonly book: string; readonly note: string }[], publicKey: Uint8Array): boolean =>
  seals.length > 0 &&
  seals.every(({ book, note }) => {
    const opened = openNote(note, verifierKey(originOf(book), publicKey));
    return !opened.ok && opened.why === 'not-signed-by-key';
  });

/**
 * Reads the key for seals before anything is served, or makes one where nothing was sealed yet.
 * @throws with what is wrong and what to do: found out at the first paper, it would be a fault in the night
 */
export async function demandSealKey(config: Settings, known: Known): Promise<void> {
  try {
    const [seals, said] = [await known.seals(), await known.said()];
    const here = await seedHere(config);
    if (here === undefined && seals.length + said.length > 0)
      throw new Error('there are seals already, and the key that signed them is not here');
    if (here !== undefined && signedNone(seals, publicKeyOf(here)))
      throw new Error('there are seals already, and no seal here is signed with it');
    const key = new SealKey(config);
    await key.seed();
    for (const one of said) await key.seedOf(one);
  } catch (error) {
    refuse(config)(error);
  }
}

const refuse =
  (config: Settings) =>
  (error: unknown): never => {
    throw new Error(`The key for seals cannot be used: ${errorMessage(error)}. ${remedy(error, config)}`, { cause: error });
  };

function remedy(error: unknown, { DATA_DIR }: Settings): string {
  if (error instanceof AnotherKey)
    return `Put the key that came with the last change into SEAL_KEY, or into ${DATA_DIR}/keys/seal.key: a backup from after the change holds it. An earlier key is not used any more.`;
  return ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'EISDIR', 'ENOSPC'].includes(errorCode(error) ?? '')
    ? `Let the account that runs the service write in ${DATA_DIR}/keys. Or give the service a key of its own: SEAL_KEY, 32 bytes in base64, made with "openssl rand -base64 32" and kept.`
    : `Put the right key into SEAL_KEY, or into ${DATA_DIR}/keys/seal.key, from where it was kept: a backup holds it. ${whereLost}`;
}

/** What to do where nobody has the key any more. */
const whereLost =
  'Where it is lost: npm run records -- seal --key-lost says so in every book and begins with another key; nothing that was signed before then vouches for that one.';
