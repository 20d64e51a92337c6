import { parseArgs } from 'node:util';
import { countText } from '@bakehouse/kernel';
import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { forgetPerson } from './platform/access/forget-person.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import type { Config } from './platform/config/index.js';
import { connected, inHouse, type Database } from './platform/database/index.js';
import { eraseRecorded } from './platform/ledger/erase-recorded.js';
import { bookText, everyBook, peopleCalled, type NamedBook } from './platform/ledger/every-book.query.js';
import { lockBooks, standingOf, whomCalled, type Standing, type Whom } from './platform/ledger/whom-to-erase.query.js';
import { namedElsewhere, wordsOfWhom, type WordOf } from './platform/ledger/words-of.query.js';

const usage =
  'Say whose name is to be erased: npm run records -- erase --person "their id or exact name" --reason "they asked for it". A supplier or customer is named ' +
  'the same way. With --their-texts the free texts that a person wrote go too. It shows counts and changes nothing; with --yes --by "who decided it" it is done.';

interface Erasing {
  readonly person: string;
  readonly reason: string;
  readonly by: string;
  readonly theirTexts: boolean;
  readonly evenSo: string;
  readonly yes: boolean;
}
interface Given extends Pick<CommandContext, 'words' | 'say'> {
  readonly config: Pick<Config, 'KEEP_NAMES_DAYS'>;
}

/** Erases the name, the numbers and on demand the texts of somebody who is gone, and records in each book that it did. The records themselves stay. */
export async function eraseCommand(
  database: Pick<Database, 'ownerUrl'>,
  { words, say, config }: Given,
  clock: Clock = systemClock,
): Promise<number> {
  const erasing = parsed(words);
  if (erasing === undefined) {
    say(usage);
    return 2;
  }
  return connected(database.ownerUrl, async (client) => {
    const [whom, anotherOne] = await whomCalled(client, erasing.person);
    if (!whom || anotherOne) {
      say(whom ? 'More than one is called so: give the id instead.' : 'Nobody here is called so.');
      return 2;
    }
    const decider = erasing.yes ? await deciderOf(client, whom, erasing.by) : whom.id;
    if (decider === undefined) {
      say('Who decided it must be one other person of this house: give their name, or their id where the name is not theirs alone.');
      return 2;
    }
    const books = (await everyBook(client)).filter((b) => b.organisation === whom.organisation);
    return inHouse(client, whom.organisation, () =>
      looked({ client, whom, books, erasing, decider, days: config.KEEP_NAMES_DAYS, say, clock }),
    );
  });
}

/** One person of the same house and not the one who is erased. */
async function deciderOf(client: Client, whom: Whom, by: string): Promise<string | undefined> {
  const found = (await peopleCalled(client, by)).filter((p) => p.organisation === whom.organisation && p.id !== whom.id);
  return found.length === 1 ? found[0]?.id : undefined;
}

interface Work {
  readonly client: Client;
  readonly whom: Whom;
  readonly books: readonly NamedBook[];
  readonly erasing: Erasing;
  readonly decider: string;
  readonly days: number;
  readonly say: (line: string) => void;
  readonly clock: Clock;
}

async function looked(work: Work): Promise<number> {
  const { client, whom, books, erasing, days, say, clock } = work;
  await lockBooks(client, whom);
  const now = clock.now();
  const standing = await standingOf(client, whom, now.toISOString());
  const texts = await wordsOfWhom(client, whom, erasing.theirTexts);
  const no = refusal(whom, standing, texts, { ...erasing, days, now });
  if (no !== undefined) {
    say(no);
    return 1;
  }
  if (texts.length === 0) {
    say('Nothing of theirs is left to erase. Nothing was changed.');
    return 0;
  }
  for (const book of books) {
    const of = texts.filter((t) => t.book === book.id);
    if (of.length > 0) say(`${bookText(book)}: ${counted(of)} ${erasing.yes ? 'erased' : 'would be erased'}`);
  }
  const elsewhere = await namedElsewhere(client, whom, texts);
  if (elsewhere > 0)
    say(`${countText(elsewhere, 'other text')} with the same name in it, not erased: read what is about this person, and correct it.`);
  if (!erasing.yes) {
    say('Nothing was changed. With --yes --by "who decided it" it is done.');
    return 0;
  }
  await erased(work, texts);
  return 0;
}

async function erased({ client, whom, books, erasing, decider, say, clock }: Work, texts: readonly WordOf[]): Promise<void> {
  const reason = erasing.evenSo === '' ? erasing.reason : `${erasing.reason}. Before its time, because: ${erasing.evenSo}`;
  for (const book of books) {
    const of = texts.filter((t) => t.book === book.id);
    if (of.length > 0) await eraseRecorded(client, book, whom, of, { reason, person: decider }, clock);
  }
  if (whom.of === 'person') await forgetPerson(client, whom.organisation, whom.id, clock.now().toISOString());
  say(
    'Backups from before, bundles and papers that left the house still hold these texts, and so do a tablet until it next has the network and the database’s own files until their space is used again. Delete the backups once ' +
      'a newer one was made, or write down that they are to be deleted by their age: a restore of one brings the texts back.',
  );
}

/** Why nothing may be erased, as a sentence. */
function refusal(
  { of }: Whom,
  { gone, openCase, lastAt }: Standing,
  texts: readonly WordOf[],
  { reason, evenSo, theirTexts, days, now }: Erasing & { readonly days: number; readonly now: Date },
): string | undefined {
  if (!gone)
    return of === 'person'
      ? 'They still work here. Record first that they have left.'
      : 'The house still deals with them. Stop that first, under suppliers and customers.';
  if (openCase && (of === 'party' || theirTexts))
    return of === 'party'
      ? 'An open recall case needs to reach them. Close the case first; the food-safety authority may still ask for them.'
      : 'While a recall case is open nothing that people wrote is erased. Close the case first.';
  const why = `${reason} ${evenSo}`.toLowerCase();
  if (texts.some((t) => t.key !== 'reason' && t.key !== 'note' && isNamedIn(t, why)))
    return 'The reason would keep what is to be erased: write it without the name or the number.';
  const until = lastAt === null ? 0 : Date.parse(lastAt) + days * 86_400_000;
  return until > now.getTime() && evenSo === ''
    ? `The last record that rests on the name is younger than ${days} days (KEEP_NAMES_DAYS). It is kept until ${new Date(until).toISOString().slice(0, 10)}, so that food can be traced and a claim answered. ` +
        'Where the law lets it go before that: --even-so "why".'
    : undefined;
}

const isNamedIn = ({ key, text }: WordOf, why: string): boolean =>
  ['name', 'contactName', 'phone', 'email', 'address', 'spokeTo'].includes(key) &&
  text.trim().length > 1 &&
  why.includes(text.trim().toLowerCase());

function counted(texts: readonly WordOf[]): string {
  const fields = new Map<string, number>();
  for (const { key } of texts) fields.set(key, (fields.get(key) ?? 0) + 1);
  return [...fields].map(([key, count]) => `${count} of "${key}"`).join(', ');
}

function parsed(words: readonly string[]): Erasing | undefined {
  const [text, flag] = [{ type: 'string' }, { type: 'boolean' }] as const;
  try {
    const { values } = parseArgs({
      args: [...words],
      options: { person: text, reason: text, by: text, 'even-so': text, 'their-texts': flag, 'dry-run': flag, yes: flag },
    });
    const { person = '', reason = '', by = '', yes = false, 'their-texts': theirTexts = false } = values;
    const evenSo = values['even-so']?.trim();
    if (person.trim() === '' || reason.trim() === '' || evenSo === '' || (yes && (by === '' || values['dry-run'] === true)))
      return undefined;
    return { person: person.trim(), reason: reason.trim(), by, theirTexts, evenSo: evenSo ?? '', yes };
  } catch {
    return undefined;
  }
}
