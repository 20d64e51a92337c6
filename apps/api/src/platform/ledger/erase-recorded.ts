import { erasedText, maxErasedAtOnce, noSalt } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { ownEntry } from './own-entry.js';
import { rebuild } from './rebuild.js';
import type { BookRef } from './types.js';
import type { Whom } from './whom-to-erase.query.js';
import type { WordOf } from './words-of.query.js';
import { recordInside } from './writer-inside.js';

interface Why {
  readonly reason: string;
  /** Who decided it. */
  readonly person: string;
}

/**
 * Erases these texts of one book, puts in the place of each what says so, records in the book which they were, and makes its rows again. In the
 * owner's transaction that is open, all of it or nothing. Commitments, bytes and leaves stay.
 */
export async function eraseRecorded(
  client: ClientBase,
  book: BookRef,
  whom: Whom,
  words: readonly WordOf[],
  { reason, person }: Why,
  clock: Clock,
): Promise<void> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 AND id = $2 FOR UPDATE', [book.organisation, book.id]);
  for (let from = 0; from < words.length; from += maxErasedAtOnce) {
    const payload = { of: whom.of, who: whom.id, words: byField(words.slice(from, from + maxErasedAtOnce)) };
    await recordInside(
      { client, clock, book, person, permission: 'withhold' },
      ownEntry({ kind: 'words-erased', payload, words: { reason } }, clock.now()),
      'That texts are erased could not be recorded, so none are',
    );
  }
  await client.query(
    `UPDATE entry_word w SET text = g.text, salt = $2 FROM unnest($3::uuid[], $4::text[], $5::text[]) g(entry, key, text)
     WHERE w.organisation = $1 AND w.entry = g.entry AND w.key = g.key`,
    [book.organisation, noSalt, words.map((w) => w.entry), words.map((w) => w.key), words.map((w) => erasedText(w.kind, w.key))],
  );
  await rebuild(client, book);
}

function byField(words: readonly WordOf[]): { field: string; entries: string[] }[] {
  const fields = new Map<string, string[]>();
  for (const { key, entry } of words) fields.set(key, [...(fields.get(key) ?? []), entry]);
  return [...fields].map(([field, entries]) => ({ field, entries }));
}
