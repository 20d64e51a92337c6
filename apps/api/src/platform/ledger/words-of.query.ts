import { noSalt } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';
import { contentOf } from './known.js';
import type { Whom } from './whom-to-erase.query.js';

/** A text that would go: which of which entry, and in which book. */
export interface WordOf extends Pick<TableRow<'entryWord'>, 'entry' | 'key' | 'text'>, Pick<TableRow<'entry'>, 'book' | 'kind'> {}

/** Texts that somebody writes; the other fields hold names, numbers and addresses of other people. */
const freeTexts = [
  ...['note', 'reason', 'action', 'what', 'review', 'why', 'because', 'condition', 'change', 'conclusion', 'said'],
  ...['whyAuthorityNotTold', 'whyNoNotice', 'whyNotReached'],
];

/**
 * The texts beside entries about somebody, what came of corrections of these and their withdrawals with them; and with `theirTexts` the free texts
 * beside what a person recorded. What says why something was erased or withheld stays.
 */
export async function wordsOfWhom(client: ClientBase, whom: Whom, theirTexts: boolean): Promise<readonly WordOf[]> {
  const { organisation, of, id } = whom;
  const { rows } = await client.query<WordOf>(
    `SELECT w.entry, w.key, w.text, e.book, e.kind FROM entry_word w JOIN entry e ON e.organisation = w.organisation AND e.id = w.entry
     WHERE w.organisation = $1 AND w.salt <> $3 AND e.kind <> ALL($5)
       AND (e.root = ANY($6) OR ($4 AND (e.person = $2 OR e.signed_by = $2) AND w.key = ANY($7)))
     ORDER BY e.book, e.seq, w.key`,
    [
      organisation,
      id,
      noSalt,
      theirTexts && of === 'person',
      ['words-erased', 'bodies-withheld'],
      await chainsAbout(client, whom),
      freeTexts,
    ],
  );
  return rows;
}

/** The chains in which an entry that has texts names them. What bytes say is read in code. */
async function chainsAbout(client: ClientBase, { organisation, of, id }: Whom): Promise<readonly string[]> {
  const { rows } = await client.query<Pick<TableRow<'entry'>, 'root'> & Pick<TableRow<'entryBody'>, 'bytes'>>(
    `SELECT e.root, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq)
     WHERE e.organisation = $1 AND EXISTS (SELECT FROM entry_word w WHERE w.organisation = $1 AND w.entry = e.id AND w.salt <> $2)`,
    [organisation, noSalt],
  );
  return [...new Set([id, ...rows.filter(({ bytes }) => named(contentOf(bytes).input['payload'], of) === id).map(({ root }) => root)])];
}

const named = (payload: unknown, field: string): unknown =>
  typeof payload === 'object' && payload !== null && Object.hasOwn(payload, field) ? Reflect.get(payload, field) : undefined;

/** In how many other texts one of these names stands. Nobody but a reader can tell whether it is this person's. */
export async function namedElsewhere(client: ClientBase, { organisation }: Whom, words: readonly WordOf[]): Promise<number> {
  const names = words.filter((w) => w.key === 'name').map((w) => w.text);
  const { rows } = await client.query<{ readonly count: Computed<number> }>(
    `SELECT count(*)::int FROM entry_word w WHERE w.organisation = $1 AND EXISTS (SELECT FROM unnest($2::text[]) n(name) WHERE strpos(lower(w.text), lower(n.name)) > 0)
       AND NOT EXISTS (SELECT FROM unnest($3::uuid[], $4::text[]) g(entry, key) WHERE g.entry = w.entry AND g.key = w.key)`,
    [organisation, names, words.map((w) => w.entry), words.map((w) => w.key)],
  );
  return rows[0]?.count ?? 0;
}
