import { decided, grouped, id, isEnded, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Snapshot } from '../base/snapshot.js';
import type { Row, State } from '../base/state.js';
import { begunBy } from '../control/in-force.js';

/** The house deals with a supplier or customer no more. What came from it or went to it stays, and so does whom to ring. */
export const partyStopped = defineKind({
  name: 'party-stopped',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.catalogue',
  phrase: 'A supplier or customer was stopped',
  official: 'Supplier or customer approval ended',
  words: ['note'],
  payload: z.strictObject({ party: id }),
  outcome: z.strictObject({}),
  examples: [{ party: '0190a6d0-7b3c-7000-8000-0000000000a1' }],
  needs: (p) => [
    { in: 'party', by: 'party', value: p.party },
    { in: 'partyStopped', by: 'party', value: p.party },
  ],
  decide({ payload: p, root, at }, state) {
    if (state.find('party', 'party', p.party).length === 0) return refuse('unknown-party', 'payload.party');
    return isStopped(state, p.party, at, root) ? refuse('already-so', 'payload.party') : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'partyStopped', id: root, row: { party: p.party, at } }],
});

/** Whom the house deals with at an instant, each as last accepted by then: a party that was stopped comes back with a later acceptance. */
export function partiesAt({ party, partyStopped }: Pick<Snapshot, 'party' | 'partyStopped'>, at: string): Row<'party'>[] {
  const accepted = begunBy(party, at);
  const newest = [...new Map(accepted.map((p) => [p.party, p])).values()];
  const [stops, acceptances] = [grouped(partyStopped, (s) => s.party), grouped(accepted, (p) => p.party)];
  return newest.filter((p) => !endedBy(stops.get(p.party) ?? [], acceptances.get(p.party) ?? [], at));
}

/** Whether dealing with a party is stopped at an instant: by a stop that no later acceptance has undone. `except` leaves one stop out. */
export function isStopped(state: State, party: string, at: string, except?: string): boolean {
  const stops = state.find('partyStopped', 'party', party).filter((s) => s.id !== except);
  return endedBy(stops, state.find('party', 'party', party), at);
}

const endedBy = (stops: readonly Row<'partyStopped'>[], acceptances: readonly Row<'party'>[], at: string): boolean =>
  isEnded(
    stops.map((s) => s.at),
    acceptances.map((p) => p.since),
    at,
  );
