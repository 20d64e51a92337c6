import type { Permission, SentEnvelope } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { LedgerWriter } from './ledger-writer.js';
import type { BookRef } from './types.js';

/** The door inside a transaction that the caller has open: what it records stands or falls with the rest of it. */
export const writerInside = (client: ClientBase, clock: Clock): LedgerWriter =>
  new LedgerWriter({
    inOrganisation: (_organisation, work) => work(client),
    now: () => clock.now(),
    fault: (error) => {
      throw error;
    },
  });

interface Inside {
  readonly client: ClientBase;
  readonly clock: Clock;
  readonly book: BookRef;
  /** Who asked for it, and the one thing that this may. */
  readonly person: string;
  readonly permission: Permission;
}

/** Records an entry of the service's own there. @throws with `failing` where the door does not take it, so that nothing of it is done */
export async function recordInside(
  { client, clock, book, person, permission }: Inside,
  entry: SentEnvelope,
  failing: string,
): Promise<void> {
  const asker = { person, session: null, device: null, permissions: new Set([permission]), whenSigned: new Set<Permission>() };
  const [result] = await writerInside(client, clock).record(book, asker, [entry]);
  if (result?.as !== 'recorded') throw new Error(`${failing}: ${JSON.stringify(result)}`);
}
