import { parseArgs } from 'node:util';
import { calendarDay } from '@bakehouse/kernel';
import { kindOf, kinds } from '@bakehouse/records';
import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { inHouse, connected, type Database } from './platform/database/index.js';
import { bookText, everyBook, peopleCalled, type NamedBook } from './platform/ledger/every-book.query.js';
import { withholdRecorded } from './platform/ledger/withhold-recorded.js';
import { oldBodies } from './platform/ledger/withhold.js';

const usage =
  'Say what is to be withheld: npm run records -- withhold --kind reading-taken --before 2020-01-01 --reason "six years are over". ' +
  'It shows counts and changes nothing; with --yes --by "who decided it" it is done.';

interface Withholding {
  readonly kind: string;
  readonly before: string;
  readonly reason: string;
  readonly by: string | undefined;
}

/** Withholds bodies of records of one kind by age, and records in each book that it did. Ordinary data is no record: that is `purge`. */
export async function withholdCommand(
  database: Pick<Database, 'ownerUrl'>,
  { words, say }: Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  const withholding = parsed(words);
  if (typeof withholding === 'string') {
    say(withholding);
    return 2;
  }
  return connected(database.ownerUrl, async (client) => {
    const books = await everyBook(client);
    if (withholding.by === undefined) {
      for (const book of books) {
        const found = await inHouse(client, book.organisation, () => oldBodies(client, book, withholding.kind, withholding.before));
        say(`${bookText(book)}: ${found.length} would be withheld`);
      }
      say('Nothing was changed. With --yes --by "who decided it" it is done.');
      return 0;
    }
    return done(client, books, { ...withholding, by: withholding.by }, say, clock);
  });
}

async function done(
  client: Client,
  books: readonly NamedBook[],
  withholding: Withholding & { by: string },
  say: (line: string) => void,
  clock: Clock,
): Promise<number> {
  const [person, another] = await peopleCalled(client, withholding.by);
  if (!person || another) {
    say(`${person ? 'More than one person is' : 'Nobody here is'} called "${withholding.by}": give their id instead.`);
    return 2;
  }
  for (const book of books.filter((b) => b.organisation === person.organisation)) {
    const count = await inHouse(client, book.organisation, () =>
      withholdRecorded(client, book, { ...withholding, person: person.id }, clock),
    );
    say(`${bookText(book)}: ${count} withheld`);
  }
  return 0;
}

function parsed(words: readonly string[]): Withholding | string {
  const text = { type: 'string' } as const;
  let values;
  try {
    ({ values } = parseArgs({ args: [...words], options: { kind: text, before: text, reason: text, by: text, yes: { type: 'boolean' } } }));
  } catch {
    return usage;
  }
  const { kind = '', before = '', reason = '', by = '', yes = false } = values;
  if (!kind || !reason.trim() || !calendarDay.safeParse(before).success || yes !== (by !== '')) return usage;
  const found = kindOf({ kind });
  const may = kinds.filter((k) => k.withholdable).map((k) => k.name);
  if (!found) return `There is no kind of record "${kind}". Withheld can be: ${may.join(', ')}.`;
  if (!found.withholdable)
    return `Records of "${kind}" are kept: traces, or other records, stand on them. Withheld can be: ${may.join(', ')}.`;
  return { kind, before, reason: reason.trim(), by: by === '' ? undefined : by };
}
