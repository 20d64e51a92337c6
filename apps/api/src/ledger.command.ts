import type { Client } from 'pg';
import type { CommandContext } from './cli.js';
import { connected, type Database } from './platform/database/index.js';
import { rebuild } from './platform/ledger/rebuild.js';
import type { BookRef } from './platform/ledger/types.js';
import { isFault, verifyBytes, verifyForm, verifyProjections, type Finding } from './platform/ledger/verify.js';

type NamedBook = BookRef & { readonly name: string };
type Work = (client: Client, book: NamedBook, say: (line: string) => void) => Promise<number>;

const works: Readonly<Record<string, Work>> = { verify, rebuild: remake };

/** `verify` reads every book in its three passes; `rebuild` makes the projections again. Both as the owner, book by book. */
export async function ledgerCommand(database: Database, { words: [name = 'verify'], say }: CommandContext): Promise<number> {
  const work = Object.hasOwn(works, name) ? works[name] : undefined;
  if (!work) {
    say(`The ledger can be asked to: ${Object.keys(works).join(', ')}.`);
    return 2;
  }
  return connected(database.ownerUrl, async (client) => {
    const { rows: books } = await client.query<NamedBook>('SELECT organisation, id, sort, name, zone FROM book ORDER BY organisation, sort, id');
    if (books.length === 0) say('There is no book yet.');
    let faults = 0;
    for (const book of books) faults += await inTransaction(client, book, () => work(client, book, say));
    return faults === 0 ? 0 : 1;
  });
}

async function inTransaction(client: Client, book: NamedBook, work: () => Promise<number>): Promise<number> {
  await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ');
  try {
    await client.query("SELECT set_config('app.organisation', $1, true)", [book.organisation]);
    const result = await work();
    await client.query('COMMIT');
    return result;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

async function verify(client: Client, book: NamedBook, say: (line: string) => void): Promise<number> {
  const bytes = await verifyBytes(client, book);
  const findings = [...bytes.findings, ...(await verifyForm(client, book)), ...(await verifyProjections(client, book))];
  const faults = findings.filter(isFault).length;
  say(`${book.name}: ${bytes.entries} entries, root ${bytes.root}: ${faults === 0 ? 'nothing was changed' : `${faults} found`}`);
  for (const finding of findings) say(`  ${line(finding)}`);
  return faults;
}

const line = ({ sort, seq, entry, detail }: Finding): string => [sort, seq === null ? '' : `at ${seq}`, entry ?? '', detail].filter((word) => word !== '').join('  ');

async function remake(client: Client, book: NamedBook, say: (line: string) => void): Promise<number> {
  say(`${book.name}: ${await rebuild(client, book)} entries replayed`);
  return 0;
}
