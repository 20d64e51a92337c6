import { grouped } from '@bakehouse/kernel';
import { comesBack, measureOf, type Measure } from '@bakehouse/records';
import type { Gone, LotAccountRows } from './account-rows.js';

/** One amount that went as one of several lots, or more, and how much of it each of them can have given. */
export interface GroupRooms {
  readonly measure: Measure;
  readonly amount: number;
  readonly rooms: ReadonlyMap<string, number>;
}

interface Member {
  readonly row: LotAccountRows;
  readonly gone: Gone;
}

/**
 * What went as one of several lots, of which the balances tell how much each had: what there was of it, less what surely went elsewhere, less what was
 * still there when it was counted. A group of which a lot is not among these is left out, and one of which more went than all of them had: then one
 * of the figures is wrong, and the balance of them together says so.
 */
export function roomsOfGroups(rows: readonly LotAccountRows[]): ReadonlyMap<string, GroupRooms> {
  const members = rows.flatMap((row) => [...row.uses, ...row.departures].map((gone): Member => ({ row, gone })));
  const groups = grouped(
    members.filter(({ gone }) => gone.anyOf !== null),
    ({ gone }) => gone.anyOf ?? '',
  );
  return new Map(
    [...groups].flatMap(([group, of]) => (of.length < (of[0]?.gone.among ?? 0) ? [] : known(of).map((k) => [group, k] as const))),
  );
}

/** At least what the others could not give, at most what this one had. */
export function sharedOut({ amount, rooms }: GroupRooms, lot: string): { readonly least: number; readonly most: number } {
  let others = 0;
  for (const [id, room] of rooms) if (id !== lot) others += room;
  return { least: Math.max(0, amount - others), most: rooms.get(lot) ?? amount };
}

/** Whether some of it surely came of one of these: the others could not have given all of it. */
export function surelyOf({ amount, rooms }: GroupRooms, isOne: (lot: string) => boolean): boolean {
  let others = 0;
  for (const [id, room] of rooms) if (!isOne(id)) others += room;
  return others < amount;
}

function known(members: readonly Member[]): GroupRooms[] {
  const [first, ...others] = members;
  if (!first) return [];
  const measure = measureOf(first.row.lot);
  const amount = first.gone[measure];
  if (amount === null || others.some(({ row, gone }) => measureOf(row.lot) !== measure || gone[measure] !== amount)) return [];
  const rooms = new Map(members.map(({ row, gone }) => [row.lot.id, Math.min(amount, Math.max(0, roomIn(row, gone.at, measure)))]));
  return sum([...rooms.values()]) < amount ? [] : [{ measure, amount, rooms }];
}

function roomIn({ lot, uses, departures, returned, count }: LotAccountRows, at: string, measure: Measure): number {
  const counted = count?.[measure] ?? null;
  const after = count !== null && counted !== null && at > count.at;
  const back = returned.filter((r) => comesBack(r.disposition));
  const there = lot[measure] ?? (measure === 'mg' ? lot.outMg : null);
  if (back.some((r) => r[measure] === null) || (!after && there === null)) return Infinity;
  const sameSide = (one: { readonly at: string }): boolean => count === null || counted === null || one.at > count.at === after;
  const gone = [...uses, ...departures].filter((g) => g.certain && g.anyOf === null && sameSide(g));
  const net = sum(gone.map((g) => g[measure] ?? 0)) - sum(back.filter(sameSide).map((r) => r[measure] ?? 0));
  const lost = measure === 'mg' ? Math.max(0, lot.lostMg ?? 0) : 0;
  return after ? (counted ?? 0) - net : (there ?? 0) - lost - (counted ?? 0) - net;
}

const sum = (list: readonly number[]): number => list.reduce((all, n) => all + n, 0);
