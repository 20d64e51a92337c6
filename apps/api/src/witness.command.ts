import path from 'node:path';
import { parseArgs } from 'node:util';
import type { CommandContext } from './command.js';
import { openWitness, witnessServer } from './modules/witness/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';

const usage =
  'Say where the witness keeps what it has seen, and where it answers: npm run records -- witness --dir DIR --port 4873 --name witness.example/who ' +
  '(the name the first time only; --host 0.0.0.0 for the network). It needs no database.';

/** Runs a witness of other people's books until it is ended: another house, an accountant or an authority can. */
export async function witnessCommand(
  { words, say }: Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
  ended: Promise<void> = asked(),
): Promise<number> {
  const wanted = parsed(words);
  if (!wanted) {
    say(usage);
    return 2;
  }
  const { dir, name, port, host } = wanted;
  const witness = await openWitness(dir, name, clock);
  const server = witnessServer(witness, say);
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, resolve);
  });
  const address = server.address();
  say(`A witness answers at http://${host}:${typeof address === 'object' && address ? address.port : port}/. Its key, for WITNESSES:`);
  say(`  ${witness.key}`);
  say(
    `It signs for ${witness.books()} books: their keys stand in ${path.join(dir, 'books.txt')}, one a line. Add those that you were given in person.`,
  );
  say('Keep the folder: a witness that lost what it has seen must begin again with another name.');
  await ended;
  await new Promise<void>((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
  return 0;
}

function asked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}

function parsed(words: readonly string[]) {
  const text = { type: 'string' } as const;
  try {
    const { values } = parseArgs({ args: [...words], options: { dir: text, name: text, port: text, host: text } });
    const { dir, name, host = '127.0.0.1', port = '' } = values;
    const number = /^[0-9]{1,5}$/.test(port) ? Number(port) : undefined;
    return dir === undefined || number === undefined || number > 65_535 ? undefined : { dir: path.resolve(dir), name, host, port: number };
  } catch {
    return undefined;
  }
}
