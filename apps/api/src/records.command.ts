import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { asOwner, connected, type Database } from './platform/database/index.js';
import { errorCode, errorMessage } from './platform/errors/index.js';
import { rebuild } from './platform/ledger/rebuild.js';
import { everyBook, type NamedBook } from './platform/ledger/every-book.query.js';
import { isFault, verifyBytes, verifyForm, verifyProjections, type Finding } from './platform/ledger/verify.js';

type Say = (line: string) => void;
interface Work {
  readonly begin: string;
  readonly run: (client: Client, book: NamedBook, say: Say) => Promise<number>;
}

const works: Readonly<Record<string, Work>> = {
  // As of one moment, however long it takes and whatever is written meanwhile.
  verify: { begin: 'BEGIN ISOLATION LEVEL REPEATABLE READ', run: verify },
  // It locks the book first and then must see what the last writer committed.
  rebuild: { begin: 'BEGIN', run: remake },
};

/**
 * `verify` reads every book in three passes and reports every fault; `rebuild` rebuilds the projections. Both run as the owner, book by book.
 * The exit code is 1 where there is a fault.
 */
export async function ledgerCommand(
  database: Pick<Database, 'ownerUrl'>,
  { words: [name = 'verify'], say }: Pick<CommandContext, 'words' | 'say'>,
): Promise<number> {
  const work = Object.hasOwn(works, name) ? works[name] : undefined;
  if (!work) {
    say(`Name a command: ${Object.keys(works).join(', ')}.`);
    return 2;
  }
  return connected(database.ownerUrl, async (client) => {
    const books = await everyBook(client);
    if (books.length === 0) say('There are no books yet.');
    let faults = 0;
    for (const book of books) faults += await asOwner(client, book.organisation, () => work.run(client, book, say), work.begin);
    if (name === 'verify' && books.length > 0)
      say(faults === 0 ? 'No faults found.' : `${faults} ${faults === 1 ? 'fault' : 'faults'} found.`);
    return faults === 0 ? 0 : 1;
  });
}

async function verify(client: Client, book: NamedBook, say: Say): Promise<number> {
  say(called(book));
  let root = '';
  const passes: readonly (readonly [name: string, pass: () => Promise<readonly Finding[]>])[] = [
    [
      'bytes, order and tree',
      async () => {
        const bytes = await verifyBytes(client, book);
        root = bytes.root;
        return bytes.findings;
      },
    ],
    ['schema and words', () => verifyForm(client, book)],
    ['projections', () => verifyProjections(client, book).catch(cannotBeMade)],
  ];
  let faults = 0;
  for (const [i, [name, pass]] of passes.entries()) {
    const title = `  pass ${i + 1} of 3, ${name}`;
    const { result: findings, seconds } = await timed(title, pass, say);
    const wrong = findings.filter(isFault).length;
    faults += wrong;
    say(`${title.padEnd(38)}${wrong === 0 ? 'no faults' : `${wrong} found`}, ${seconds.toFixed(1)} s`);
    for (const finding of findings.slice(0, maxReported)) say(`    ${told(finding)}`);
    if (findings.length > maxReported) say(`    and ${findings.length - maxReported} more`);
  }
  say(`  root ${root}`);
  return faults;
}

/** An unreadable entry gives no rows to compare; the earlier passes have reported it. An error of the database is passed on. */
function cannotBeMade(error: unknown): Finding[] {
  if (errorCode(error) !== undefined) throw error;
  return [{ type: 'unreadable', seq: null, entry: null, detail: `cannot rebuild the projections to compare them: ${errorMessage(error)}` }];
}

/** The most findings reported for one pass; a badly damaged book has one for each entry. */
const maxReported = 50;

const told = ({ type, seq, entry, detail }: Finding): string =>
  `${type}${entry === null ? '' : `  entry ${entry}`}${seq === null ? '' : `${entry === null ? '  ' : ', '}number ${seq}`}: ${detail}`;

async function remake(client: Client, book: NamedBook, say: Say): Promise<number> {
  const { result: entries, seconds } = await timed(`  ${book.name}`, () => rebuild(client, book), say);
  say(`${called(book)}: projections rebuilt from ${entries} entries, ${seconds.toFixed(1)} s`);
  return 0;
}

const called = ({ of, name, type, size }: NamedBook): string =>
  `${type === 'organisation' ? `${of}, the organisation’s own book` : `${of}, ${name}`}: ${size} entries`;

/** Reports every ten seconds that a long step is still running. */
async function timed<T>(title: string, work: () => Promise<T>, say: Say): Promise<{ result: T; seconds: number }> {
  const began = performance.now();
  const seconds = (): number => (performance.now() - began) / 1000;
  const still = setInterval(() => say(`${title} … ${seconds().toFixed(0)} s`), 10_000);
  try {
    const result = await work();
    return { result, seconds: seconds() };
  } finally {
    clearInterval(still);
  }
}
