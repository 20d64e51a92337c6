import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import type { TableRow } from '../database/index.js';
import { ownEntry } from '../ledger/own-entry.js';
import { recordInside } from '../ledger/writer-inside.js';

interface PinSet {
  readonly organisation: string;
  readonly person: string;
  /** Who gives it. */
  readonly by: string;
}

/** Records, in the transaction that is open and through the door, that somebody's PIN was set and by whom. */
export async function recordPinSet(client: ClientBase, { organisation, person, by }: PinSet, clock: Clock): Promise<void> {
  const { rows } = await client.query<Pick<TableRow<'book'>, 'id' | 'zone'>>(
    "SELECT id, zone FROM book WHERE organisation = $1 AND type = 'organisation'",
    [organisation],
  );
  const [book] = rows;
  if (!book) throw new Error('an organisation without its book');
  await recordInside(
    { client, clock, book: { organisation, type: 'organisation', ...book }, person: by, permission: 'service' },
    ownEntry({ kind: 'pin-set', payload: { person } }, clock.now()),
    'That a PIN is set could not be recorded, so it is not',
  );
}
