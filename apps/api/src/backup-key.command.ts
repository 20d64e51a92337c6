import type { CommandContext } from './command.js';
import { newKeyPair } from './platform/backups/index.js';

/** Makes the pair of keys that backups are encrypted and opened with. Nothing of it is stored here. */
export async function backupKeyCommand({ say }: Pick<CommandContext, 'say'>): Promise<number> {
  const { secret, recipient } = await newKeyPair();
  say('The public key. Backups are encrypted to it; it may be known:');
  say(`  BACKUP_TO=${recipient}`);
  say('The private key. It alone opens the backups. It is shown only here and stored nowhere:');
  say(`  ${secret}`);
  say('Print the private key and keep it away from this computer, in two places. Without it no backup can be opened, by anybody.');
  return 0;
}
