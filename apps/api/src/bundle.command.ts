import { copyFile, mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { BookInBundle } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { formatFor } from '@bakehouse/ledger';
import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { allFields, bookInBundle, changesSay, demandSealKeyOf, erasedFrom, SealKey, sealNow, shownFields } from './modules/seals/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { projectRoot } from './platform/config/index.js';
import { inHouse, connected, type ServiceDatabase } from './platform/database/index.js';
import { everyBook, type NamedBook } from './platform/ledger/every-book.query.js';

const usage =
  'Say where to put it: npm run records -- bundle --out FOLDER. All books of the house go along, formulas too; with --site "its name" the records of that ' +
  'site alone. With --words names, telephone numbers and addresses go along, without it only notes and reasons. With --house "its name" where there are several.';

/** What an outsider needs besides the bundle: a page, a script, and the format for a program of their own. */
const checkersBuilt = ['apps/web/dist/verify.html', 'apps/web/dist/verify.mjs', 'libs/ledger/FORMAT.md'].map((file) =>
  path.join(projectRoot, file),
);

/** The most entries of a book in one file, the newest: about 200 MB, which a browser still opens. */
const maxEntries = 100_000;

interface Wanted {
  readonly out: string;
  readonly house: string | undefined;
  readonly site: string | undefined;
  readonly words: boolean;
}
type Given = Pick<CommandContext, 'words' | 'say'> & { readonly config: Pick<CommandContext['config'], 'SEAL_KEY' | 'DATA_DIR'> };

/** Seals the books of a house as they stand, and writes them into one file, with what an outsider checks it with. */
export async function bundleCommand(
  database: Pick<ServiceDatabase, 'serviceUrl'>,
  { words, say, config }: Given,
  clock: Clock = systemClock,
  checkers: readonly string[] = checkersBuilt,
): Promise<number> {
  const wanted = parsed(words);
  if (wanted === undefined) {
    say(usage);
    return 2;
  }
  return connected(database.serviceUrl, async (client) => {
    const books = chosen(await everyBook(client), wanted);
    if (typeof books === 'string') {
      say(books);
      return 2;
    }
    await demandSealKeyOf(client, config);
    const key = new SealKey(config);
    const handed: BookInBundle[] = [];
    for (const book of books) handed.push(await handedOut(client, book, wanted, key, clock, say));
    await mkdir(wanted.out, { recursive: true });
    await writeFile(path.join(wanted.out, 'bundle.json'), JSON.stringify({ format: formatFor(handed), books: handed }));
    for (const file of checkers) await copyFile(file, path.join(wanted.out, path.basename(file)));
    say(`Written to ${wanted.out}: bundle.json, and verify.html, verify.mjs and FORMAT.md to check it with.`);
    say(
      'It proves something to a person who has a key or a seal of this house from before. Give them one now, on paper, for the next time.',
    );
    return 0;
  });
}

async function handedOut(
  client: Client,
  book: NamedBook,
  { site, words }: Wanted,
  key: SealKey,
  clock: Clock,
  say: (line: string) => void,
): Promise<BookInBundle> {
  const { organisation } = book;
  // The seal first: where the key is being changed, it waits for that and then has to see it.
  const seal = await inHouse(client, organisation, () => sealNow(client, book, key, clock.now().toISOString()));
  const count = site !== undefined && book.type === 'organisation' ? 0 : Math.min(seal.size, maxEntries);
  const handed = { first: count === 0 ? 0 : seal.size - count, count, fields: words ? allFields : shownFields };
  const { made, erased } = await inHouse(
    client,
    organisation,
    async () => ({
      made: await bookInBundle(client, book, seal, handed),
      erased: await erasedFrom(client, book, handed.first, handed.count),
    }),
    'BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY',
  );
  const withheld = made.entries.filter((entry) => entry.withheldLeafHex !== undefined).length;
  const [bodies, texts] = [
    withheld > 0 ? `, of ${withheld} only the fingerprint` : '',
    erased > 0 ? `; ${countText(erased, 'text')} not there: erased, on record` : '',
  ];
  for (const line of changesSay(seal.keys)) say(`${book.name}: ${line}`);
  say(`${book.name}: ${made.count} of ${book.size} entries${bodies}${texts}`);
  return made;
}

/** The books that go along, or what to say where that is not clear. */
function chosen(all: readonly NamedBook[], { house, site }: Wanted): readonly NamedBook[] | string {
  const named = all.filter((book) => house === undefined || book.of === house || book.organisation === house);
  const [first] = named;
  if (!first) return house === undefined ? 'There are no books yet.' : `There is no house called "${house}".`;
  if (named.some((book) => book.organisation !== first.organisation))
    return `Say which house, with --house: ${[...new Set(named.map((book) => book.of))].join(', ')}.`;
  if (site === undefined) return named;
  const sites = named.filter((book) => book.type === 'site' && (book.name === site || book.id === site));
  if (sites.length !== 1) return `There is ${sites.length === 0 ? 'no site' : 'more than one site'} called "${site}".`;
  return [...sites, ...named.filter((book) => book.type === 'organisation')];
}

function parsed(words: readonly string[]): Wanted | undefined {
  const text = { type: 'string' } as const;
  try {
    const { values } = parseArgs({ args: [...words], options: { out: text, house: text, site: text, words: { type: 'boolean' } } });
    const { out, house, site, words: personal = false } = values;
    return out === undefined || out.trim() === '' ? undefined : { out: path.resolve(out), house, site, words: personal };
  } catch {
    return undefined;
  }
}
