import type { CarriedOver, CollectionName, Row, TakenBack } from './state.js';
import { WorkingSet } from './working-set.js';
import { collections } from '../rows/collections.js';

/** Rows by collection, as a tablet holds them and as a server screen loads them: what every view of the night is worked out from. */
export type Snapshot = { readonly [C in CollectionName]: readonly Row<C>[] } & {
  /** What lots start from of which not all records are here. */
  readonly carriedOver?: readonly CarriedOver[];
  /** Lots that something speaks against, of which the service knows that they are of other sites and never came here: no food on hold of this one. */
  readonly heldElsewhere?: readonly Pick<Row<'lot'>, 'id'>[];
  /** Of these deviations the record was withdrawn or corrected, as far as the service knows. */
  readonly takenBack?: readonly TakenBack[];
};

export const collectionNames = Object.keys(collections) as readonly CollectionName[]; // keys of a constant object: TypeScript widens them to string

/** A snapshot with these rows, and none of every other collection. */
export function snapshotOf(rows: Partial<Snapshot> = {}): Snapshot {
  const none: Partial<Record<CollectionName, readonly never[]>> = Object.fromEntries(collectionNames.map((name) => [name, []]));
  return { ...none, ...rows } as Snapshot; // every collection's name is a key, by the line above
}

/** The rows of a snapshot as a working set that holds everything there is: what a device decides against. */
export function workingSetOf(snapshot: Snapshot): WorkingSet {
  const work = new WorkingSet(true);
  work.carryOver(snapshot.carriedOver ?? []);
  for (const name of collectionNames) for (const row of snapshot[name]) work.base(name, row);
  return work;
}
