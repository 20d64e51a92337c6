import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { randomToken, uuidv7 } from '../ids/index.js';
import type { BookRef } from './types.js';
import { oldBodies, withhold } from './withhold.js';
import { writerInside } from './writer-inside.js';

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
  const writer = writerInside(client, clock);
  const salt = Buffer.from(randomToken(16), 'base64url').toString('hex');
  const [result] = await writer.record(
    book,
    { person, session: null, device: null, permissions: new Set(['withhold']), whenSigned: new Set() },
    [
      {
        id: uuidv7(clock.now()),
        kind: 'bodies-withheld',
        version: 1,
        occurredAt: { at: clock.now().toISOString(), precision: 'exact' },
        doneBy: null,
        device: { id: null, seq: 0, clockErrorMs: null },
        words: { reason: { text: reason, salt } },
        payload: { kind, before, bodies: entries.length },
      },
    ],
  );
  if (result?.as !== 'recorded') throw new Error(`That bodies are withheld could not be recorded, so none are: ${JSON.stringify(result)}`);
  await withhold(client, book, entries);
  return entries.length;
}
