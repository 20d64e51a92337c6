import type { Need } from './state.js';

/** A need that is followed to its end. */
export type FollowedNeed = Extract<Need, { by: unknown }> & { readonly follow: string };
export const isFollowed = (need: Need): need is FollowedNeed => 'by' in need && need.follow !== undefined;

const followedBy = ' and on by ';

/** One text for one need, the same for equal needs. */
export function keyOf(need: Need): string {
  if ('id' in need) return `${need.in} ${need.id}`;
  const key = `${need.in} ${need.by}=${need.value}`;
  return need.follow === undefined ? key : `${key}${followedBy}${need.follow}`;
}

type ByWay = Map<string, Set<string>>;

/** Needs, each once. By collection, way and value in turn: one question may name a million of them, and a text made for each would cost more than its rows. */
export class NeedSet {
  private readonly rows = new Map<string, Set<string>>();
  private readonly lookUps = new Map<string, ByWay>();
  private readonly walks = new Map<string, ByWay>();

  /** True where it was not in there before. */
  add(need: Need): boolean {
    const values = this.valuesOf(need);
    const value = 'id' in need ? need.id : need.value;
    if (values.has(value)) return false;
    values.add(value);
    return true;
  }

  has(need: Need): boolean {
    if ('id' in need) return this.hasRow(need.in, need.id);
    if (need.follow === undefined) return this.hasLookUp(need.in, need.by, need.value);
    return this.walks.get(need.in)?.get(`${need.by}${followedBy}${need.follow}`)?.has(need.value) ?? false;
  }

  hasRow(collection: string, id: string): boolean {
    return this.rows.get(collection)?.has(id) ?? false;
  }

  hasLookUp(collection: string, by: string, value: string): boolean {
    return this.lookUps.get(collection)?.get(by)?.has(value) ?? false;
  }

  addRow(collection: string, id: string): void {
    madeIn(this.rows, collection, () => new Set<string>()).add(id);
  }

  addLookUp(collection: string, by: string, value: string): void {
    madeIn(
      madeIn(this.lookUps, collection, (): ByWay => new Map()),
      by,
      () => new Set<string>(),
    ).add(value);
  }

  forgetWalks(): void {
    this.walks.clear();
  }

  private valuesOf(need: Need): Set<string> {
    if ('id' in need) return madeIn(this.rows, need.in, () => new Set<string>());
    const [all, way] = need.follow === undefined ? [this.lookUps, need.by] : [this.walks, `${need.by}${followedBy}${need.follow}`];
    return madeIn(
      madeIn(all, need.in, (): ByWay => new Map()),
      way,
      () => new Set<string>(),
    );
  }
}

/** Each need once, in the order first named. */
export function distinctNeeds(needs: readonly Need[]): Need[] {
  const seen = new NeedSet();
  return needs.filter((need) => seen.add(need));
}

/** What stands under a key, made where nothing does. */
export function madeIn<V>(map: Map<string, V>, key: string, make: () => V): V {
  const found = map.get(key);
  if (found !== undefined) return found;
  const made = make();
  map.set(key, made);
  return made;
}
