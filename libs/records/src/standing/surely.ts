import { earliestOf, grouped, latestOf } from '@bakehouse/kernel';
import type { Measure } from './left-of.js';
import { isIntoPieces, isPutOn, putOnMake, type Into, type Went } from './put-on-make.js';

/** So much of one lot went into another, or the one turned out to be the other. */
export interface Link extends Went {
  /** The flow's, where it is one. */
  readonly id?: string;
  /** It was put on what was there already (`withPutOn`): what had left by then, or may have, does not surely have it. */
  readonly putOn?: boolean;
}
/**
 * Flows, each with whether it was put on pieces: oil, wash, seeds, glaze, on what a dough was divided into or on what was counted out of that; or on a make that was divided by then, which
 * is on the pieces that it was divided into (`putOnMake`).
 */
export function withPutOn<F extends Into>(flows: readonly F[]): (F & { readonly putOn: boolean })[] {
  const pieces = new Set(flows.filter(isIntoPieces).map(({ target }) => target));
  const divided = grouped(
    flows.filter((f) => f.type === 'divided'),
    (f) => f.source,
  );
  const onto = flows.flatMap((f) => (isPutOn(f) && !pieces.has(f.target) ? putOnMake(f, divided.get(f.target) ?? []) : [f]));
  return onto.map((f) => ({ ...f, putOn: f.type === 'after-oven' || (isPutOn(f) && pieces.has(f.target)) }));
}

/** By which lot it surely came, and since when a lot surely holds it: null where all of it ever did. */
export interface Surely {
  readonly by: string | null;
  readonly sureFrom: string | null;
}
/** Whether what was taken of a lot at this time, at the earliest, surely holds what the lot surely does: of the same instant nobody knows which came first. */
export const surelyThen = (surely: Surely | undefined, at: string): boolean =>
  surely !== undefined && (surely.sureFrom === null || at > surely.sureFrom);

/** How much of what went this way may have been of its lot, at most; null where nothing bounds it. */
export type RoomOf = (link: Link, unit: Measure) => number | null;

/**
 * The lots that surely hold some of those that it begins at: over a certain link, or where the lots of an any-of group that do not surely hold it could not
 * have given all of the amount. What left a lot before it was put on its pieces does not. The one place that decides *certain* or *perhaps*; what is
 * reached otherwise is perhaps.
 */
export function surelyReached(
  begins: Iterable<string>,
  links: readonly Link[],
  roomOf: RoomOf,
  goesOn: (lot: string) => boolean = () => true,
): ReadonlyMap<string, Surely> {
  const out = grouped(links, (l) => l.source);
  const groups = grouped(
    links.filter((l) => l.anyOf !== null),
    groupOf,
  );
  const reached = new Map<string, Surely>([...begins].map((lot) => [lot, { by: null, sureFrom: null }]));
  const holds = (l: Link): boolean => walked.has(l.source) && surelyThen(reached.get(l.source), earliestOf(l));
  const walked = new Set<string>();
  const queue = [...reached.keys()];
  for (const lot of queue) {
    if (!goesOn(lot)) continue;
    walked.add(lot);
    for (const link of out.get(lot) ?? []) {
      const sureFrom = link.putOn === true ? latestOf(link) : null;
      if (!sooner(sureFrom, reached.get(link.target)) || !surelyThen(reached.get(lot), earliestOf(link))) continue;
      const group = link.anyOf === null ? undefined : groups.get(groupOf(link));
      if (!link.certain && (group === undefined || !tooLittleBeside(group, holds, roomOf))) continue;
      reached.set(link.target, { by: reached.get(link.target)?.by ?? lot, sureFrom });
      queue.push(link.target);
    }
  }
  return reached;
}

/** Whether that is sooner than what is known: each lot is walked again only where more of what was taken of it surely holds it. */
const sooner = (from: string | null, known: Surely | undefined): boolean =>
  known === undefined || (known.sureFrom !== null && (from === null || from < known.sureFrom));

/** The same the other way: the lots of which some surely went into those that it begins at, by the lot that it went into. */
export function surelyCameFrom(begins: Iterable<string>, links: readonly Link[], roomOf: RoomOf): ReadonlyMap<string, Surely> {
  const into = grouped(links, (l) => l.target);
  const reached = new Map<string, Surely>([...begins].map((lot) => [lot, { by: null, sureFrom: null }]));
  for (const lot of reached.keys()) {
    const groups = grouped(
      (into.get(lot) ?? []).filter((l) => l.anyOf !== null),
      groupOf,
    );
    for (const link of into.get(lot) ?? []) {
      if (reached.has(link.source)) continue;
      const group = link.anyOf === null ? undefined : groups.get(groupOf(link));
      const itself = (l: Link): boolean => l.source === link.source;
      if (link.certain || (group !== undefined && tooLittleBeside(group, itself, roomOf)))
        reached.set(link.source, { by: lot, sureFrom: null });
    }
  }
  return reached;
}

const groupOf = ({ anyOf, target }: Link): string => `${anyOf ?? ''} ${target}`;

/**
 * Whether the lots of a group that are not among these had too little to be all of it. A group of which more went than all its lots had bounds nothing: then
 * one of the figures is wrong, and nobody knows which.
 */
function tooLittleBeside(group: readonly Link[], holds: (link: Link) => boolean, roomOf: RoomOf): boolean {
  const others = group.filter((l) => !holds(l));
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
