import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { asOwner, connected, type Database } from './platform/database/index.js';
import { errorCode, errorMessage } from './platform/error-code.js';
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
 * `verify` reads every book in its three passes and tells what is not as it was written; `rebuild` makes the projections again. Both as the owner,
 * book by book. Answers 1 where there is a fault.
 */
export async function ledgerCommand(
  database: Pick<Database, 'ownerUrl'>,
  { words: [name = 'verify'], say }: Pick<CommandContext, 'words' | 'say'>,
): Promise<number> {
  const work = Object.hasOwn(works, name) ? works[name] : undefined;
  if (!work) {
    say(`The ledger can be asked to: ${Object.keys(works).join(', ')}.`);
    return 2;
  }
  return connected(database.ownerUrl, async (client) => {
    const books = await everyBook(client);
    if (books.length === 0) say('There is no book yet.');
    let faults = 0;
    for (const book of books) faults += await asOwner(client, book.organisation, () => work.run(client, book, say), work.begin);
    if (name === 'verify' && books.length > 0)
      say(faults === 0 ? 'Nothing was changed.' : `${faults} ${faults === 1 ? 'fault' : 'faults'} found.`);
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
    ['form and words', () => verifyForm(client, book)],
    ['projections', () => verifyProjections(client, book).catch(cannotBeMade)],
  ];
  let faults = 0;
  for (const [i, [name, pass]] of passes.entries()) {
    const title = `  pass ${i + 1} of 3, ${name}`;
    const { result: findings, seconds } = await timed(title, pass, say);
    const wrong = findings.filter(isFault).length;
    faults += wrong;
    say(`${title.padEnd(38)}${wrong === 0 ? 'nothing was changed' : `${wrong} found`}, ${seconds.toFixed(1)} s`);
    for (const finding of findings.slice(0, maxTold)) say(`    ${told(finding)}`);
    if (findings.length > maxTold) say(`    and ${findings.length - maxTold} more`);
  }
  say(`  root ${root}`);
  return faults;
}

/** What cannot be read gives no rows to compare with; which entry it is was told by the passes before. What the database says is passed on. */
function cannotBeMade(error: unknown): Finding[] {
  if (errorCode(error) !== undefined) throw error;
  return [
    { type: 'unreadable', seq: null, entry: null, detail: `the projections cannot be made again to compare them: ${errorMessage(error)}` },
  ];
}

/** So many findings of one pass are told; a book that was torn up has one for each entry. */
const maxTold = 50;

const told = ({ type, seq, entry, detail }: Finding): string =>
  `${type}${entry === null ? '' : `  entry ${entry}`}${seq === null ? '' : `${entry === null ? '  ' : ', '}number ${seq}`}: ${detail}`;

async function remake(client: Client, book: NamedBook, say: Say): Promise<number> {
  const { result: entries, seconds } = await timed(`  ${book.name}`, () => rebuild(client, book), say);
  say(`${called(book)}: projections made again from ${entries} entries, ${seconds.toFixed(1)} s`);
  return 0;
}

const called = ({ of, name, type, size }: NamedBook): string =>
  `${type === 'organisation' ? `${of}, the organisation’s own book` : `${of}, ${name}`}: ${size} entries`;

/** Says every ten seconds that a long one is still at it. */
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
