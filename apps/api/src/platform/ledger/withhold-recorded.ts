import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { ownEntry } from './own-entry.js';
import type { BookRef } from './types.js';
import { oldBodies, withhold } from './withhold.js';
import { recordInside } from './writer-inside.js';

export interface Withholding {
  readonly kind: string;
  readonly before: string;
  readonly reason: string;
  /** Who decided it. */
  readonly person: string;
}

/** Withholds what is old in a book and records it there through the door, both in the owner's transaction that is open, or neither. Answers how many. */
export async function withholdRecorded(
  client: ClientBase,
  book: BookRef,
  { kind, before, reason, person }: Withholding,
  clock: Clock,
): Promise<number> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 AND id = $2 FOR UPDATE', [book.organisation, book.id]);
  const entries = await oldBodies(client, book, kind, before);
  if (entries.length === 0) return 0;
  await recordInside(
    { client, clock, book, person, permission: 'withhold' },
    ownEntry({ kind: 'bodies-withheld', payload: { kind, before, bodies: entries.length }, words: { reason } }, clock.now()),
    'That bodies are withheld could not be recorded, so none are',
  );
  await withhold(client, book, entries);
  return entries.length;
}
