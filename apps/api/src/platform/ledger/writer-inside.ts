import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { LedgerWriter } from './ledger-writer.js';

/** The door inside a transaction that the caller has open: what it records stands or falls with the rest of it. */
export const writerInside = (client: ClientBase, clock: Clock): LedgerWriter =>
  new LedgerWriter({
    inOrganisation: (_organisation, work) => work(client),
    now: () => clock.now(),
    fault: (error) => {
      throw error;
    },
  });
