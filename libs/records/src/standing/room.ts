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
export function roomsIn(state: State): RoomOf {
  const known = new Map<string, Rooms | null>();
  return ({ source, at }, unit) => {
    if (!known.has(source)) known.set(source, roomsOfLot(state, source));
    const rooms = known.get(source) ?? null;
    if (rooms === null) return null;
    const [room, factor] = [roomAt(rooms, at), factorTo(unit, rooms)];
    return room === null || factor === null ? null : room * factor;
  };
}

/** How much there was for one use of a lot, by whether that was before or after the last count. Where nobody counted, all is before. */
interface RoomsByCount {
  readonly countedAt: string | null;
  readonly before: number | null;
  readonly after: number | null;
}
interface Rooms extends RoomsByCount {
  readonly unit: Measure;
  /** What one piece of it was scaled at. Once baked it weighs that or less. */
  readonly scalingMg: number | undefined;
}

export const roomAt = ({ countedAt, before, after }: RoomsByCount, at: string): number | null =>
  countedAt !== null && at > countedAt ? after : before;
const factorTo = (unit: Measure, rooms: Rooms): number | null =>
  rooms.unit === unit ? 1 : unit === 'mg' ? (rooms.scalingMg ?? null) : null;

function roomsOfLot(state: State, lot: string): Rooms | null {
  if (!roomNeeds(state, lot).every((need) => state.knows(need))) return null;
  const row = state.get('lot', lot);
  // What came and went of it came and went of what it turned out to be.
  if (!row || row.type === 'withdrawn' || state.find('lotIdentified', 'lot', lot).some((i) => i.same !== null)) return null;
  const [unit, without] = [measureOf(row), takenWhenOver(state, lot)];
  const moved = movementsOf(state, lot, null, { oneOfSeveral: 'left-out', certainUses: true, without });
  const scalingMg = state.get('run', state.get('batch', lot)?.run ?? lot)?.scalingMg;
  return { unit, scalingMg, ...roomsAmong(row[unit], moved, unit) };
}

export function roomsAmong(stated: number | null, { into, shop, ...here }: Movements, unit: Measure): RoomsByCount {
  // What was sent to a shop of the house and came back from there is on both sides. A count in the one says nothing of the other.
  const [back, out] = [
    [...here.back, ...(shop?.back ?? [])],
    [...here.out, ...(shop?.out ?? [])],
  ];
  const count = shop ? undefined : latest(here.counts.filter((c) => c[unit] !== null));
  const roomOn = (there: number | null, isSide: (m: Moved) => boolean, still: number): number | null => {
    const came = sumOfKnown(back.filter(isSide).map((m) => m[unit]));
    if (there === null || came === null) return null;
    const room = there + came - out.filter(isSide).reduce((sum, m) => sum + (m[unit] ?? 0), 0) - still;
    return room < 0 ? null : room;
  };
  const isBefore = (m: Moved): boolean => !count || m.at <= count.at;
  return {
    countedAt: count?.at ?? null,
    before: roomOn(thereWas(stated, into.filter(isBefore), null, unit), isBefore, count?.[unit] ?? 0),
    after: count ? roomOn(thereWas(stated, into, count, unit), (m) => !isBefore(m), 0) : null,
  };
}
