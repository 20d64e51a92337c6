import { byTime } from '@bakehouse/kernel';
import { movedTo, neverWas, openNow, surelyGone, type LotTrouble, type Row, type WhereNow } from '@bakehouse/records';
import { codeOf, isOnHoldOrRefused, leftRangeIn, saidOf, troubleOn, type LotCode, type Lookup } from '../lookup/lookup.js';

export interface LotInStock {
  readonly id: string;
  readonly name: string;
  readonly material: string;
  readonly type: Row<'lot'>['type'];
  readonly code: LotCode;
  readonly at: string;
  readonly bestBefore: string | null;
  readonly useBy: string | null;
  /** By the rows that there are; below zero where more was used than came. Null where they cannot say. */
  readonly leftMg: number | null;
  /** So much less it is where what went as one of several lots went of this one; null where nobody can say. */
  readonly perhapsMg: number | null;
  readonly trouble: LotTrouble | null;
  /** What is said of it where it is offered: its trouble, or that it is past its best-before date. */
  readonly said: ReturnType<typeof saidOf>;
  readonly where: WhereNow | null;
}

/**
 * Ingredients and what was made for later: every lot that is not used up at its stations (unless it is on hold or was refused: some may stand in the store),
 * made up, withdrawn before anything was done with it, or named as another; by name and the newest first.
 */
export function inStock(lookup: Lookup): LotInStock[] {
  const { snapshot, state, at } = lookup;
  const open = new Set(openNow(snapshot.inUse, snapshot.emptied, at).map((u) => u.lot));
  const usedUp = new Set(snapshot.emptied.filter((e) => e.at <= at && !open.has(e.lot)).map((e) => e.lot));
  const madeUp = new Set(snapshot.divided.map((d) => d.make));
  const another = new Set(snapshot.lotIdentified.filter((i) => i.same !== null).map((i) => i.lot));
  return snapshot.lot
    .filter((l) => !neverWas(state, l.id))
    .filter((l) => l.at <= at && l.type !== 'run' && l.type !== 'batch' && !madeUp.has(l.id) && !another.has(l.id))
    .map((l): LotInStock => {
      const { id, name, material, type, bestBefore, useBy } = l;
      const own = { id, name, material, type, bestBefore, useBy, at: l.at };
      return {
        ...own,
        code: codeOf(lookup, id),
        ...leftRangeIn(lookup, id),
        trouble: troubleOn(lookup, id),
        said: saidOf(lookup, id),
        where: movedTo(state, id, at),
      };
    })
    .filter((l) => l.leftMg !== 0 && (!usedUp.has(l.id) || (isOnHoldOrRefused(l.trouble) && !surelyGone(state, l.id, at))))
    .sort((a, b) => a.name.localeCompare(b.name) || byTime(b, a));
}
