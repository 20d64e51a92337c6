import type { Allergen } from '@bakehouse/kernel';
import type { Declared } from '@bakehouse/records';

/** One lot that today's products were made from, through whatever is made here. */
export interface UsedLot {
  readonly id: string;
  readonly name: string;
  /** Whether it is made here: then something must have gone into it, or nobody knows what is in it. */
  readonly made: boolean;
  /** What its specifications say: several where a later one came for it too or nobody knows whose it is, none where nobody ever said. */
  readonly declared: readonly Declared[];
}
/** What went into what: ingredients, aids such as tin oil, washes, what was put on after the oven, what a vessel held, what a name given later stands for. */
export interface UsedFlow {
  readonly source: string;
  readonly target: string;
}
/** Made before another at the same station, with no clean-down between: traces of it may be in the later one. */
export interface Touched {
  readonly before: string;
  readonly after: string;
}
export interface Used {
  readonly lots: ReadonlyMap<string, UsedLot>;
  readonly into: ReadonlyMap<string, readonly string[]>;
  readonly touched: ReadonlyMap<string, readonly string[]>;
}

export interface LotAllergens {
  readonly contains: ReadonlySet<Allergen>;
  readonly mayContain: ReadonlySet<Allergen>;
  /** Possible only because the same bowl made it before and was not cleaned. */
  readonly fromBowl: ReadonlySet<Allergen>;
  /** Names of what nobody knows or nobody checked the content of, in it or before it in the same bowl: with any of these the answer is never "no". */
  readonly notKnown: readonly string[];
  /** The day of the oldest check that absence rests on; null where absence cannot be said. */
  readonly checkedSince: string | null;
  /** Every lot that it was made from, itself among them. */
  readonly from: ReadonlySet<string>;
}

/** Puts rows together so that lots can be looked through, again and again. */
export function usedOf(lots: readonly UsedLot[], flows: readonly UsedFlow[], touched: readonly Touched[]): Used {
  return {
    lots: new Map(lots.map((l) => [l.id, l])),
    into: grouped(
      flows,
      (f) => f.target,
      (f) => f.source,
    ),
    touched: grouped(
      touched,
      (t) => t.after,
      (t) => t.before,
    ),
  };
}

/**
 * What these lots contain by what was used: the union of everything that went in, however indirectly. One of several lots, or one load yes and
 * one no, counts as yes. What the same bowl made before, uncleaned, is possible, one step back. Pure; circles end where they began.
 */
export function lotAllergens(used: Used, ids: readonly string[]): LotAllergens {
  const own = gather(used, ids);
  const mayContain = new Set([...own.mayContain].filter((a) => !own.contains.has(a)));
  const befores = [...own.from].flatMap((id) => used.touched.get(id) ?? []).filter((id) => !own.from.has(id));
  const before = gather(used, befores);
  const fromBowl = new Set([...before.contains, ...before.mayContain].filter((a) => !own.contains.has(a) && !mayContain.has(a)));
  const notKnown = [...new Set([...own.notKnown, ...before.notKnown])];
  const [oldest] = [...own.checks, ...before.checks].sort();
  return {
    contains: own.contains,
    from: own.from,
    mayContain,
    fromBowl,
    notKnown,
    checkedSince: notKnown.length === 0 ? (oldest ?? null) : null,
  };
}

interface Gathered extends Omit<LotAllergens, 'fromBowl' | 'checkedSince'> {
  readonly checks: ReadonlySet<string>;
}

function gather(used: Used, ids: readonly string[]): Gathered {
  const [contains, mayContain] = [new Set<Allergen>(), new Set<Allergen>()];
  const [notKnown, checks, from] = [new Set<string>(), new Set<string>(), new Set<string>()];
  const open = [...ids];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (from.has(id)) continue;
    from.add(id);
    const lot = used.lots.get(id);
    const sources = used.into.get(id) ?? [];
    const declared = lot?.declared ?? [];
    for (const { contains: has, mayContain: may, checked } of declared) {
      has.forEach((a) => contains.add(a));
      may.forEach((a) => mayContain.add(a));
      if (checked) checks.add(checked.on);
    }
    const said = lot && !lot.made && declared.length > 0 && declared.every((d) => d.checked !== null);
    if (sources.length === 0 && !said) notKnown.add(lot?.name ?? 'a lot that is not on record');
    open.push(...sources);
  }
  return { contains, mayContain, notKnown: [...notKnown], checks, from };
}

function grouped<T>(all: readonly T[], key: (t: T) => string, value: (t: T) => string): ReadonlyMap<string, readonly string[]> {
  const map = new Map<string, string[]>();
  for (const one of all) {
    const list = map.get(key(one));
    if (list) list.push(value(one));
    else map.set(key(one), [value(one)]);
  }
  return map;
}
