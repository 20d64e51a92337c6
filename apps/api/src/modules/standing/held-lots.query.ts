import type { State } from '@bakehouse/records';
import { isOnHold, type Standing } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { BookRef } from '../../platform/ledger/index.js';
import { lotsUnderConcern } from './lots-under-concern.query.js';
import { followedStandingOf } from './standing-of.query.js';

export interface HeldLots {
  /** Each lot that something speaks against and that is not surely gone, at every site. */
  readonly held: ReadonlyMap<string, Standing>;
  /** Every lot that an open concern may reach, gone or not, with the records that say so. */
  readonly reached: ReadonlySet<string>;
  readonly state: State;
}

/** What is on hold in the house, worked out from the open concerns: no list of it is kept anywhere. */
export async function heldLots(client: ClientBase, books: readonly BookRef[], organisation: string, at: string): Promise<HeldLots> {
  const lots = await lotsUnderConcern(client, organisation, at);
  const { state, standings } = await followedStandingOf(client, books, lots, at);
  return { state, reached: new Set(lots), held: new Map([...standings].filter(([, s]) => isOnHold(s))) };
}
