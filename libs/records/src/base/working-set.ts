import { madeIn, NeedSet, type FollowedNeed } from './need-set.js';
import type { CarriedOver, Change, CollectionName, Lookups, Need, Row, State } from './state.js';
import { collections } from '../rows/collections.js';

/** The entry that a row comes from: it stands beside the row in every table. */
export interface Origin {
  readonly entry: string;
  readonly seq: number;
}
export interface Written {
  readonly row: Change['row'];
  readonly origin: Origin;
}
/** What is to be saved, by collection and id: a row to write, or null for one to delete. */
export type Dirty = ReadonlyMap<CollectionName, ReadonlyMap<string, Written | null>>;

type Stored = Record<string, unknown> & { id: string };
type Shelf = Map<string, Stored>;
/** The rows of a collection that hold a value, and the same as a list once it was asked for. */
interface Held {
  readonly rows: Shelf;
  list: readonly Stored[] | null;
}

/**
 * Loaded rows with the changes made so far on top. The server's transaction and the tablet's outbox are both this.
 * Rows that were never asked for are not "absent" but unknown: `get` and `find` throw on them unless the base is whole.
 */
export class WorkingSet implements State {
  private readonly shelves = new Map<string, Shelf>();
  private readonly indexes = new Map<string, Map<string, Map<string, Held>>>();
  private readonly asked = new NeedSet();
  private readonly ends = new Map<string, Map<string, string>>();
  private readonly carried = new Map<string, CarriedOver>();
  private readonly changed = new Map<CollectionName, Map<string, Written | null>>();

  /** @param whole true where the base holds everything (a tablet's snapshot), so that nothing needs to be asked for first. */
  constructor(private readonly whole = false) {}

  get carriedOver(): ReadonlyMap<string, CarriedOver> {
    return this.carried;
  }

  /** What lots start from of which the base does not hold all records. */
  carryOver(lots: readonly CarriedOver[]): void {
    for (const one of lots) this.carried.set(one.id, one);
  }

  /** Notes that these were looked for, so that their absence is knowledge. */
  loaded(needs: readonly Need[]): void {
    for (const need of needs) this.asked.add(need);
  }

  /** The same of needs that were followed: each value whose rows were looked up on the way, and each at which it ended. */
  followed(needs: readonly FollowedNeed[], reached: readonly { readonly key: string; readonly ends: string | null }[]): void {
    this.loaded(needs);
    const [first] = needs;
    if (!first) return;
    const { in: collection, by } = first;
    for (const { key, ends } of reached) {
      if (ends === null) this.asked.addLookUp(collection, by, key);
      else madeIn(this.ends, `${collection} ${by}`, () => new Map<string, string>()).set(key, ends);
    }
  }

  /** Whether any look-up that was followed ended before there was nothing more. */
  get hasEnds(): boolean {
    return this.ends.size > 0;
  }

  /** Forgets where look-ups ended: what is asked next is followed again. */
  forgetEnds(): void {
    this.ends.clear();
    this.asked.forgetWalks();
  }

  endsAt(need: Need): string | null {
    return ('by' in need && this.ends.size > 0 ? this.ends.get(`${need.in} ${need.by}`)?.get(need.value) : undefined) ?? null;
  }

  knows(need: Need): boolean {
    return this.whole || this.asked.has(need) || ('id' in need && this.shelf(need.in).has(need.id));
  }

  /** Puts a stored row under the changes; rows already there (changed in this commit, or loaded before) win. */
  base(collection: CollectionName, row: { id: string } & Record<string, unknown>): void {
    if (!this.shelf(collection).has(row.id) && !this.changed.get(collection)?.has(row.id)) this.put(collection, row.id, row);
  }

  get<C extends CollectionName>(collection: C, id: string): Row<C> | undefined {
    if (!this.whole && !this.asked.hasRow(collection, id) && !this.shelf(collection).has(id))
      throw new Error(`${collection} ${id} was not named as a need`);
    return this.rowOf(collection, id);
  }

  private rowOf<C extends CollectionName>(collection: C, id: string): Row<C> | undefined {
    return this.shelf(collection).get(id) as Row<C> | undefined; // put() is the only writer and takes Rows[C]
  }

  find<C extends CollectionName>(collection: C, by: Lookups[C], value: string): readonly Row<C>[] {
    if (!this.whole && !this.asked.hasLookUp(collection, by, value))
      throw new Error(`${collection} by ${by} ${value} was not named as a need`);
    const held = this.indexes.get(collection)?.get(by)?.get(value);
    if (held === undefined) return [];
    held.list ??= [...held.rows.values()];
    return held.list as readonly Row<C>[]; // put() is the only writer and takes Rows[C]
  }

  /**
   * Replaces the rows of one chain: what `before` made and `after` does not make any more is gone, but for rows that stay whatever happens. Such a row comes from
   * the entry whose content it is, not from the one that took it back.
   */
  apply(origin: Origin, after: readonly Change[], before: readonly Change[] = [], beforeFrom = origin): void {
    const kept = new Set(after.map((c) => `${c.in} ${c.id}`));
    for (const c of before) if (!kept.has(`${c.in} ${c.id}`)) this.takeAway(beforeFrom, c);
    for (const c of after) this.write(origin, c.in, c.id, c.row);
  }

  /** What a chain does not give any more goes, or says from now on what it is. */
  private takeAway(origin: Origin, before: Change): void {
    const { stays, row } = collections[before.in];
    if (stays === null) this.drop(before.in, before.id);
    else if (Object.keys(stays).length > 0) this.write(origin, before.in, before.id, row.parse({ ...before.row, ...stays }));
  }

  private write(origin: Origin, collection: CollectionName, id: string, row: Change['row']): void {
    this.put(collection, id, { ...row, id });
    this.note(collection, id, { row, origin });
  }

  dirty(): Dirty {
    return this.changed;
  }

  /** Of these needs, the ones that were not looked for yet. */
  missing(needs: readonly Need[]): Need[] {
    return needs.filter((need) => !this.asked.has(need) && !('id' in need && this.shelf(need.in).has(need.id)));
  }

  private note(collection: CollectionName, id: string, written: Written | null): void {
    const of = this.changed.get(collection) ?? new Map<string, Written | null>();
    this.changed.set(collection, of.set(id, written));
  }

  private drop(collection: CollectionName, id: string): void {
    this.unindex(collection, id);
    this.shelf(collection).delete(id);
    this.asked.addRow(collection, id);
    this.note(collection, id, null);
  }

  private put(collection: CollectionName, id: string, row: Stored): void {
    this.unindex(collection, id);
    this.shelf(collection).set(id, row);
    for (const by of collections[collection].by) {
      const value = row[by];
      if (typeof value !== 'string') continue;
      const held = this.held(collection, by, value);
      held.rows.set(id, row);
      held.list = null;
    }
  }

  private unindex(collection: CollectionName, id: string): void {
    const old = this.shelf(collection).get(id);
    if (!old) return;
    for (const by of collections[collection].by) {
      const value = old[by];
      if (typeof value !== 'string') continue;
      const held = this.held(collection, by, value);
      held.rows.delete(id);
      held.list = null;
    }
  }

  private held(collection: string, by: string, value: string): Held {
    const ways = madeIn(this.indexes, collection, () => new Map<string, Map<string, Held>>());
    const values = madeIn(ways, by, () => new Map<string, Held>());
    return madeIn(values, value, (): Held => ({ rows: new Map(), list: null }));
  }

  private shelf(collection: string): Shelf {
    return madeIn(this.shelves, collection, (): Shelf => new Map());
  }
}
