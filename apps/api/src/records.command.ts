import type { Client } from 'pg';
import { notDone, type CommandContext } from './command.js';
import { verifierKeys } from './modules/seals/index.js';
import type { Config } from './platform/config/index.js';
import { inHouse, connected, type Database } from './platform/database/index.js';
import { errorCode, errorMessage } from './platform/errors/index.js';
import { bookText, everyBook, type NamedBook } from './platform/ledger/every-book.query.js';
import { about, exitCodeOf, findingKinds, isFault, severityOf, type Finding } from './platform/ledger/findings.js';
import { rebuild } from './platform/ledger/rebuild.js';
import { verifyBeside } from './platform/ledger/verify-house.js';
import { verifyNotes } from './platform/ledger/verify-notes.js';
import { verifyProtection } from './platform/ledger/verify-protection.js';
import type { SealKeys } from './platform/ledger/verify-seals.js';
import { verifyBytes, verifyForm, verifyProjections } from './platform/ledger/verify.js';

type Say = (line: string) => void;
type Pass = readonly [name: string, pass: () => Promise<readonly Finding[]>];
interface Given extends Pick<CommandContext, 'words' | 'say'> {
  readonly config: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;
}

const works: Readonly<Record<string, (client: Client, books: readonly NamedBook[], given: Given) => Promise<number>>> = {
  verify: verifyAll,
  rebuild: rebuildAll,
};

/**
 * `verify` reads everything and reports every fault; its exit code is 0 where nothing is wrong, 1 where something is to be put right and the records
 * stand, 2 where evidence was changed. `rebuild` rebuilds the projections. Both run as the owner, book by book.
 */
export async function ledgerCommand(database: Pick<Database, 'ownerUrl'>, given: Given): Promise<number> {
  const { words, say } = given;
  const [name = 'verify'] = words;
  const work = Object.hasOwn(works, name) ? works[name] : undefined;
  if (!work) {
    say(`Name a command: ${Object.keys(works).join(', ')}.`);
    return notDone;
  }
  return connected(database.ownerUrl, async (client) => {
    const books = await everyBook(client);
    if (books.length === 0) say('There are no books yet.');
    return work(client, books, given);
  });
}

async function rebuildAll(client: Client, books: readonly NamedBook[], { say }: Given): Promise<number> {
  // It locks the book first and then must see what the last writer committed.
  for (const book of books) await inHouse(client, book.organisation, () => remake(client, book, say));
  return 0;
}

/** As of one moment, however long it takes and whatever is written meanwhile. */
const asOfOneMoment = 'BEGIN ISOLATION LEVEL REPEATABLE READ';

async function verifyAll(client: Client, books: readonly NamedBook[], { say, config }: Given): Promise<number> {
  const keys = (await verifierKeys(config)) ?? 'none-here';
  const found: Finding[] = [];
  for (const book of books) {
    say(called(book));
    found.push(...(await inHouse(client, book.organisation, () => verifyBook(client, book, keys, say), asOfOneMoment)));
  }
  for (const [organisation, of] of houses(books)) {
    say(`${of[0]?.of ?? organisation}, beside its books`);
    const passes: readonly Pass[] = [
      ['how entries came, words, photos', () => verifyBeside(client, organisation)],
      ['working notes', () => verifyNotes(client, of).catch(cannotBeMade('work out what is open'))],
    ];
    found.push(...(await inHouse(client, organisation, () => each(passes, '', say), asOfOneMoment)));
  }
  say('The database');
  found.push(...(await each([['locks', () => verifyProtection(client)]], '', say)));
  if (books.length > 0 || found.length > 0) conclude(found, say);
  return exitCodeOf(found);
}

function houses(books: readonly NamedBook[]): ReadonlyMap<string, readonly NamedBook[]> {
  const by = new Map<string, NamedBook[]>();
  for (const book of books) by.set(book.organisation, [...(by.get(book.organisation) ?? []), book]);
  return by;
}

async function verifyBook(client: Client, book: NamedBook, keys: SealKeys, say: Say): Promise<readonly Finding[]> {
  let root = '';
  const passes: readonly Pass[] = [
    [
      'bytes, order and tree',
      async () => {
        const bytes = await verifyBytes(client, book, keys);
        root = bytes.root;
        return bytes.findings;
      },
    ],
    ['schema and words', () => verifyForm(client, book)],
    ['projections', () => verifyProjections(client, book).catch(cannotBeMade('rebuild the projections to compare them'))],
  ];
  const found = await each(passes, 'pass', say);
  say(`  root ${root}`);
  return found;
}

/** Runs passes one after the other and says what each found. */
async function each(passes: readonly Pass[], numbered: string, say: Say): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  for (const [i, [name, pass]] of passes.entries()) {
    const title = numbered === '' ? `  ${name}` : `  ${numbered} ${i + 1} of ${passes.length}, ${name}`;
    const { result: findings, seconds } = await timed(title, pass, say);
    const wrong = findings.filter(isFault).length;
    found.push(...findings);
    say(`${title.padEnd(38)}${wrong === 0 ? 'no faults' : `${wrong} found`}, ${seconds.toFixed(1)} s`);
    for (const finding of findings.slice(0, maxReported)) say(`    ${told(finding)}`);
    if (findings.length > maxReported) say(`    and ${findings.length - maxReported} more`);
  }
  return found;
}

/** What cannot be read gives nothing to compare with; the earlier passes have reported it. An error of the database is passed on. */
const cannotBeMade =
  (what: string) =>
  (error: unknown): Finding[] => {
    if (errorCode(error) !== undefined) throw error;
    return [about('unreadable', `cannot ${what}: ${errorMessage(error)}`)];
  };

const notCovered =
  'Not covered, since it is no record: PINs, tablets, sessions, counts of wrong PINs, security events, what inspectors looked at, drafts, set-aside entries, names of houses. ' +
  'The owner of the database can change those unseen.';

/** What each type that was found means and what to do, the worst first; the last line is the sum of it. */
function conclude(found: readonly Finding[], say: Say): void {
  const faults = found.filter(isFault);
  const types = [...new Set(faults.map((f) => f.type))].sort((a, b) => exitCodeOf([{ type: b }]) - exitCodeOf([{ type: a }]));
  for (const type of types) say(`${type}: ${findingKinds[type].means} ${findingKinds[type].todo}`);
  say(notCovered);
  if (faults.length === 0) say('No faults found.');
  else {
    const worst = faults.some((f) => severityOf(f) === 'evidence') ? 'evidence was changed' : 'to be put right; the entries stand';
    say(`${faults.length} ${faults.length === 1 ? 'fault' : 'faults'} found: ${worst}.`);
  }
}

/** The most findings reported for one pass; a badly damaged book has one for each entry. */
const maxReported = 50;

const told = ({ type, seq, entry, detail }: Finding): string =>
  `${type}${entry === null ? '' : `  entry ${entry}`}${seq === null ? '' : `${entry === null ? '  ' : ', '}number ${seq}`}: ${detail}`;

async function remake(client: Client, book: NamedBook, say: Say): Promise<void> {
  const { result: entries, seconds } = await timed(`  ${book.name}`, () => rebuild(client, book), say);
  say(`${called(book)}: projections rebuilt from ${entries} entries, ${seconds.toFixed(1)} s`);
}

const called = (book: NamedBook): string => `${bookText(book)}: ${book.size} entries`;

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
