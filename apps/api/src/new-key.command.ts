import { parseArgs } from 'node:util';
import { countText } from '@bakehouse/kernel';
import type { CommandContext } from './command.js';
import { loseKey, turnKey, WhichKey, type Turned } from './modules/seals/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import type { Config } from './platform/config/index.js';
import { connected, type ServiceDatabase } from './platform/database/index.js';
import { errorMessage } from './platform/errors/index.js';

const usage =
  'npm run records -- seal seals every book now. With --new-key the key for seals is handed over to a new one. With --key-lost it is said that nobody has it any more, and ' +
  'another begins; the public key that was lost is named with --old-key "…": it stands on each paper, in each file of the seals of a day and in each bundle, of whatever book.';

type Settings = Pick<Config, 'WITNESSES' | 'SEAL_KEY' | 'DATA_DIR'>;

/** Hands the key for seals over to a new one, and says who has to hear of it. */
export async function newKeyCommand(
  { serviceUrl }: Pick<ServiceDatabase, 'serviceUrl'>,
  { config, words, say }: { readonly config: Settings } & Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  const asked = parsed(words);
  if (asked === undefined) {
    say(usage);
    return 2;
  }
  if (asked.lost) return keyLost(serviceUrl, { config, say, clock, oldKey: asked.oldKey });
  const hand = (seed: string): void => {
    say('The new key, for SEAL_KEY. Keep it as you kept the old one. It counts only once this command says that the key was handed over:');
    say(`  SEAL_KEY=${seed}`);
  };
  const turned = await connected(serviceUrl, (client) => turnKey(client, { config, clock, hand }));
  for (const line of told(turned, config)) say(line);
  return 0;
}

function parsed(words: readonly string[]): { readonly lost: boolean; readonly oldKey: string | undefined } | undefined {
  const flag = { type: 'boolean', default: false } as const;
  try {
    const { values } = parseArgs({ args: [...words], options: { 'new-key': flag, 'key-lost': flag, 'old-key': { type: 'string' } } });
    const { 'new-key': turned, 'key-lost': lost, 'old-key': oldKey } = values;
    return turned === lost || (turned && oldKey !== undefined) ? undefined : { lost, oldKey };
  } catch {
    return undefined;
  }
}

async function keyLost(
  serviceUrl: string,
  {
    config,
    say,
    clock,
    oldKey,
  }: { readonly config: Settings; readonly clock: Clock; readonly oldKey: string | undefined } & Pick<CommandContext, 'say'>,
): Promise<number> {
  try {
    const said = await connected(serviceUrl, (client) => loseKey(client, { config, clock, oldKey }));
    for (const line of toldLost(said, config)) say(line);
    return 0;
  } catch (error) {
    say(error instanceof WhichKey ? usage : `FAILED  ${errorMessage(error)}`);
    return error instanceof WhichKey ? 2 : 1;
  }
}

const toldLost = (said: readonly Turned[], { SEAL_KEY, WITNESSES = [] }: Settings): readonly string[] => [
  `It is said in ${countText(said.length, 'book')} that the key for seals was LOST. Nothing that was signed before vouches for the key that begins now: ` +
    'everybody who checks is told so, and compares the new key with you in person.',
  ...said.map(({ name, size, to }) => `${name}, after ${size} records: ${to}`),
  SEAL_KEY === undefined
    ? 'The new key is in keys/seal.key under DATA_DIR. Start the service again, and take a backup now: it holds the key.'
    : 'The new key is the one in SEAL_KEY. Start each service again with it, and keep it in a second place as well.',
  'Print the next paper and give it to those who had one, with these keys; papers from before still prove what they cover.',
  'Each tablet will tell that the records are signed with another key than it knew: an administrator says on it that it is known why.',
  ...(WITNESSES.length === 0 ? [] : ['Give the keepers of the witnesses the keys above in person: they are ADDED to books.txt.']),
];

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
