import type { Config } from '../../platform/config/index.js';
import { errorCode, errorMessage } from '../../platform/errors/index.js';
import { SealKey, verifierKeys } from './seal-key.js';

type Settings = Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;

/**
 * Reads the key for seals before anything is served, or makes one where nothing was sealed yet.
 * @throws with what is wrong and what to do: found out at the first paper, it would be a fault in the night
 */
export async function demandSealKey(config: Settings, sealsAreThere: () => Promise<boolean>): Promise<void> {
  try {
    const isHere = (await verifierKeys(config)) !== undefined;
    if (!isHere && (await sealsAreThere())) throw new Error('there are seals already, and the key that signed them is not here');
    await new SealKey(config).seed();
  } catch (error) {
    throw new Error(`The key for seals cannot be used: ${errorMessage(error)}. ${remedy(error, config)}`, { cause: error });
  }
}

function remedy(error: unknown, { DATA_DIR }: Settings): string {
  const given = 'Or give the service a key of its own: SEAL_KEY, 32 bytes in base64, made with "openssl rand -base64 32" and kept.';
  return ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'EISDIR', 'ENOSPC'].includes(errorCode(error) ?? '')
    ? `Let the account that runs the service write in ${DATA_DIR}/keys. ${given}`
    : `Put the right key into SEAL_KEY, or into ${DATA_DIR}/keys/seal.key, from where it was kept: a backup holds it. ${given} What the old key signed is then checked with the old public key.`;
}
