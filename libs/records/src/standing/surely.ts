import { grouped } from '@bakehouse/kernel';
import type { Measure } from './left-of.js';

/** So much of one lot went into another, or the one turned out to be the other. `anyOf` names the group of lots of which it was one, or more. */
export interface Link {
  readonly source: string;
  readonly target: string;
  readonly certain: boolean;
  readonly anyOf: string | null;
  readonly mg: number | null;
  readonly pieces: number | null;
  readonly at: string;
}
/** How much of what went this way may have been of its lot, at most; null where nothing bounds it. */
export type RoomOf = (link: Link, unit: Measure) => number | null;

/**
 * The lots that surely hold some of those that it begins at, each with the lot that it came by: over a certain link, or where the lots of an any-of group that
 * do not surely hold it could not have given all of the amount. The one place that decides *certain* or *perhaps*; what is reached otherwise is perhaps.
 */
export function surelyReached(
  begins: Iterable<string>,
  links: readonly Link[],
  roomOf: RoomOf,
  goesOn: (lot: string) => boolean = () => true,
): ReadonlyMap<string, string | null> {
  const out = grouped(links, (l) => l.source);
  const groups = grouped(
    links.filter((l) => l.anyOf !== null),
    groupOf,
  );
  const reached = new Map<string, string | null>([...begins].map((lot) => [lot, null]));
  const holds = new Set<string>();
  for (const lot of reached.keys()) {
    if (!goesOn(lot)) continue;
    holds.add(lot);
    for (const link of out.get(lot) ?? []) {
      const group = link.anyOf === null ? undefined : groups.get(groupOf(link));
      if (reached.has(link.target)) continue;
      if (link.certain || (group !== undefined && tooLittleBeside(group, holds, roomOf))) reached.set(link.target, lot);
    }
  }
  return reached;
}

/** The same the other way: the lots of which some surely went into those that it begins at, each with the lot that it went into. */
export function surelyCameFrom(begins: Iterable<string>, links: readonly Link[], roomOf: RoomOf): ReadonlyMap<string, string | null> {
  const into = grouped(links, (l) => l.target);
  const reached = new Map<string, string | null>([...begins].map((lot) => [lot, null]));
  for (const lot of reached.keys()) {
    const groups = grouped(
      (into.get(lot) ?? []).filter((l) => l.anyOf !== null),
      groupOf,
    );
    for (const link of into.get(lot) ?? []) {
      if (reached.has(link.source)) continue;
      const group = link.anyOf === null ? undefined : groups.get(groupOf(link));
      if (link.certain || (group !== undefined && tooLittleBeside(group, new Set([link.source]), roomOf))) reached.set(link.source, lot);
    }
  }
  return reached;
}

const groupOf = ({ anyOf, target }: Link): string => `${anyOf ?? ''} ${target}`;

/**
 * Whether the lots of a group that are not among these had too little to be all of it. A group of which more went than all its lots had bounds nothing: then
 * one of the figures is wrong, and nobody knows which.
 */
function tooLittleBeside(group: readonly Link[], holds: ReadonlySet<string>, roomOf: RoomOf): boolean {
  const others = group.filter((l) => !holds.has(l.source));
  if (others.length === 0) return true;
  const roomUpTo = (amount: number, link: Link, unit: Measure): number => Math.min(roomOf(link, unit) ?? amount, amount);
  return (['mg', 'pieces'] as const).some((unit) => {
    const amount = group[0]?.[unit] ?? null;
    if (amount === null || group.some((l) => l[unit] !== amount)) return false;
    // A lot that is among them twice, as itself and as what came after another in its vessel, had what it had once.
    const had = (of: readonly Link[]): number =>
      [...grouped(of, (l) => l.source).values()].reduce((sum, same) => sum + Math.max(...same.map((l) => roomUpTo(amount, l, unit))), 0);
    return had(others) < amount && had(group) >= amount;
  });
}
