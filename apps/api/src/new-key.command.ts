import type { CommandContext } from './command.js';
import { turnKey, type Turned } from './modules/seals/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import type { Config } from './platform/config/index.js';
import { connected, type ServiceDatabase } from './platform/database/index.js';

const usage = 'npm run records -- seal seals every book now. With --new-key the key for seals is handed over to a new one first.';

type Settings = Pick<Config, 'WITNESSES' | 'SEAL_KEY' | 'DATA_DIR'>;

/** Hands the key for seals over to a new one, and says who has to hear of it. */
export async function newKeyCommand(
  { serviceUrl }: Pick<ServiceDatabase, 'serviceUrl'>,
  { config, words, say }: { readonly config: Settings } & Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  if (words.length !== 1 || words[0] !== '--new-key') {
    say(usage);
    return 2;
  }
  const hand = (seed: string): void => {
    say('The new key, for SEAL_KEY. Keep it as you kept the old one. It counts only once this command says that the key was handed over:');
    say(`  SEAL_KEY=${seed}`);
  };
  const turned = await connected(serviceUrl, (client) => turnKey(client, { config, clock, hand }));
  for (const line of told(turned, config)) say(line);
  return 0;
}

function told(turned: readonly Turned[], { SEAL_KEY, WITNESSES = [] }: Settings): readonly string[] {
  if (turned.length === 0) return ['There are no books yet, so there was nothing to hand over: give the service any key that you like.'];
  return [
    `The key for seals was handed over in ${turned.length} ${turned.length === 1 ? 'book' : 'books'}. The old key made a last seal of each, and signed the new one.`,
    ...turned.map(({ name, size, to }) => `${name}, after ${size} records: ${to}`),
    SEAL_KEY === undefined
      ? 'The new key is in keys/seal.key under DATA_DIR, in place of the old one; a running service takes it from there by itself.'
      : 'Set SEAL_KEY to the new key wherever the service runs, and start each of them again NOW: with the old one they make no more seals.',
    'Take a backup now: earlier ones hold the old key, which seals nothing any more.',
    'Print a paper, or let today’s seals leave the house: a person who has the old key can follow the statement in a bundle to the new one.',
    ...(WITNESSES.length === 0
      ? []
      : [
          `Give ${WITNESSES.length === 1 ? 'the keeper of the witness' : 'the keepers of the witnesses'} the keys above, in person or as you gave the first ones. They are ADDED to books.txt; the old ` +
            'lines stay until the witness has signed a seal by the new key. Until then it answers 403, and no seal is cosigned.',
        ]),
  ];
}
