import { latest, sumOfKnown } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';
import { overNeeds, takenWhenOver } from './later-content.js';
import { thereWas, type Measure, type Movements } from './left-of.js';
import { measureOf, movementNeeds, movementsOf } from './lot-rows.js';
import type { Moved } from './places.js';
import type { RoomOf } from './surely.js';

/** What has to be looked for, as far as can be named now, before it is known how much of a lot one of its uses may have been. */
export function roomNeeds(state: State, lot: string): Need[] {
  const batch: Need = { in: 'batch', id: lot };
  const run = (state.knows(batch) ? state.get('batch', lot)?.run : undefined) ?? lot;
  return [
    ...movementNeeds(state, lot),
    { in: 'lotIdentified', by: 'lot', value: lot },
    batch,
    { in: 'run', id: run },
    ...overNeeds(state, lot),
  ];
}

/**
 * What went of a lot cannot have been more than there was of it, with what came back, less what surely went elsewhere, less what was still there when it was
 * counted. Where a record that this needs was not looked for, or an amount that would make it more has no figure, nothing bounds it. A lot of which more
 * went than there was bounds nothing: then one of its figures is wrong.
 */
export const roomsIn =
  (state: State): RoomOf =>
  ({ source: lot, at }, unit) => {
    if (!roomNeeds(state, lot).every((need) => state.knows(need))) return null;
    const row = state.get('lot', lot);
    // What came and went of it came and went of what it turned out to be.
    if (!row || row.type === 'withdrawn' || state.find('lotIdentified', 'lot', lot).some((i) => i.same !== null)) return null;
    const own = measureOf(row);
    const without = takenWhenOver(state, lot);
    const room = roomAmong(row[own], movementsOf(state, lot, null, { oneOfSeveral: 'left-out', certainUses: true, without }), own, at);
    if (own === unit || room === null) return room;
    // Pieces weigh what they were scaled at, or less once they were baked.
    const scaled = unit === 'mg' ? state.get('run', state.get('batch', lot)?.run ?? lot)?.scalingMg : undefined;
    return scaled === undefined ? null : room * scaled;
  };

function roomAmong(stated: number | null, { into, shop, ...here }: Movements, unit: Measure, at: string): number | null {
  // What was sent to a shop of the house and came back from there is on both sides. A count in the one says nothing of the other.
  const [back, out] = [
    [...here.back, ...(shop?.back ?? [])],
    [...here.out, ...(shop?.out ?? [])],
  ];
  const count = shop ? null : latest(here.counts.filter((c) => c[unit] !== null));
  const after = count !== null && count !== undefined && at > count.at;
  const sameSide = (m: Moved): boolean => !count || m.at > count.at === after;
  const there = after ? thereWas(stated, into, count, unit) : thereWas(stated, into.filter(sameSide), null, unit);
  const came = sumOfKnown(back.filter(sameSide).map((m) => m[unit]));
  if (there === null || came === null) return null;
  const room = there + came - out.filter(sameSide).reduce((sum, m) => sum + (m[unit] ?? 0), 0) - (after ? 0 : (count?.[unit] ?? 0));
  return room < 0 ? null : room;
}
