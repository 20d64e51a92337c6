import { alsoThisLot, lastKnown, movementNeeds, movementsOf, type Need, type State, type WorkingSet } from '@bakehouse/records';
import { leftRangeIn } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';
import type { LeftInLot } from './carried-over.js';
import { usedSince } from './used-since.query.js';

/**
 * What is left of lots by all records: the same sum as everywhere (`leftRangeIn`), over rows in which the uses of each lot are added up already. What turned out to be
 * one lot with others is rare, and is worked out from every row.
 */
export async function leftInLots(
  client: ClientBase,
  books: readonly BookRef[],
  lots: readonly string[],
  at: string,
): Promise<ReadonlyMap<string, LeftInLot>> {
  const [first] = books;
  if (!first || lots.length === 0) return new Map();
  const state = await loadState(client, books, (known) => lots.flatMap((lot) => movementNeeds(known, lot).filter((n) => n.in !== 'flow')));
  const several = lots.filter((lot) => alsoThisLot(state, lot).length > 0);
  const single = lots.filter((lot) => !several.includes(lot));
  state.loaded(single.flatMap(flowsOf));
  const since = single.map((lot) => ({ lot, at: countedAt(state, lot, at) }));
  for (const use of await usedSince(client, first, since, at)) state.base('flow', asFlow(use));
  const whole =
    several.length === 0 ? state : await loadState(client, books, (known) => several.flatMap((lot) => movementNeeds(known, lot)));
  const found = (of: WorkingSet, some: readonly string[]) =>
    some.map((lot) => [lot, { ...leftRangeIn({ state: of, at }, lot), countedAt: countedAt(of, lot, at) }] as const);
  return new Map([...found(state, single), ...found(whole, several)]);
}

const flowsOf = (lot: string): Need[] => [
  { in: 'flow', by: 'source', value: lot },
  { in: 'flow', by: 'target', value: lot },
];

const countedAt = (state: State, lot: string, at: string): string | null =>
  lastKnown(movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), 'mg')?.at ?? null;

/** All uses of a lot as one row of its own. */
function asFlow({ lot, way, certain, mg, at }: Awaited<ReturnType<typeof usedSince>>[number]) {
  const elsewhere = `${lot} all ${way}`;
  const [source, target] = way === 'out' ? [lot, elsewhere] : [elsewhere, lot];
  const same = { pieces: null, how: 'weighed', type: 'ingredient', anyOf: null };
  return { id: `${lot} ${way} ${String(certain)}`, source, target, certain, mg, at, ...same };
}
