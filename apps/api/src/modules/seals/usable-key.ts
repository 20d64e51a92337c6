import { readVerifierKey, sameBytes } from '@bakehouse/ledger';
import type { Config } from '../../platform/config/index.js';
import { inTransaction } from '../../platform/database/index.js';
import { errorCode, errorMessage } from '../../platform/errors/index.js';
import { publicAfter } from './book-keys.js';
import { lastChanges } from './key-changes.query.js';
import { AnotherKey, SealKey, verifierKeys } from './seal-key.js';
import { anySeal, type Client } from './seals.query.js';
import { settleKey } from './turn-key.js';

type Settings = Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;

/** What the database tells of the key: whether it sealed anything, and which keys were said last. */
export interface Known {
  readonly sealed: () => Promise<boolean>;
  readonly said: () => Promise<readonly (Uint8Array | undefined)[]>;
}

/** Ends or drops a change of the key that was cut off, and refuses to start without the key that is the key now. */
export async function demandSealKeyOf(client: Client, config: Settings): Promise<void> {
  await settleKey(client, config).catch(refuse(config));
  await demandSealKey(config, { sealed: () => anySeal(client), said: () => saidLast(client) });
}

/** The key that was said last, of each book that has a statement. */
const saidLast = (client: Client): Promise<readonly (Uint8Array | undefined)[]> =>
  inTransaction(client, async () => (await lastChanges(client)).map(({ note }) => publicAfter(note)), 'BEGIN READ ONLY');

/** Whether the key that is here is the one that was said last; nothing is made and nothing ended. Where none is here, that is another matter. */
export async function isLastKey(client: Client, config: Settings): Promise<boolean> {
  const here = readVerifierKey((await verifierKeys(config))?.('any') ?? '')?.publicKey;
  return here === undefined || (await saidLast(client)).every((said) => said !== undefined && sameBytes(said, here));
}

/**
 * Reads the key for seals before anything is served, or makes one where nothing was sealed yet.
 * @throws with what is wrong and what to do: found out at the first paper, it would be a fault in the night
 */
export async function demandSealKey(config: Settings, { sealed, said }: Known): Promise<void> {
  try {
    const isHere = (await verifierKeys(config)) !== undefined;
    if (!isHere && (await sealed())) throw new Error('there are seals already, and the key that signed them is not here');
    const key = new SealKey(config);
    await key.seed();
    for (const one of await said()) await key.seedOf(one);
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
  const given = 'Or give the service a key of its own: SEAL_KEY, 32 bytes in base64, made with "openssl rand -base64 32" and kept.';
  return ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'EISDIR', 'ENOSPC'].includes(errorCode(error) ?? '')
    ? `Let the account that runs the service write in ${DATA_DIR}/keys. ${given}`
    : `Put the right key into SEAL_KEY, or into ${DATA_DIR}/keys/seal.key, from where it was kept: a backup holds it. ${given} What the old key signed is then checked with the old public key.`;
}
