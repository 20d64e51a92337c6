import { how, latest, sumOfKnown } from '@bakehouse/kernel';
import * as z from 'zod';
import { byPlace, soldOver, type CameBack, type Carried, type Counted, type Left, type Moved, type OnCounter } from './places.js';

/** What an amount of a lot is counted in. */
export const measure = z.enum(['mg', 'pieces']);
export type Measure = z.infer<typeof measure>;
/** What the balance of a lot says. */
export const balanceFinding = z.enum(['none', 'not-all-accounted', 'more-than-there-was', 'nobody-counted', 'unknown-amounts']);
export type BalanceFinding = z.infer<typeof balanceFinding>;
/** What may have put a balance out: how an amount is known, or that it is not. */
export const balanceCause = z.enum([...how.options, 'not-known']);
export type BalanceCause = z.infer<typeof balanceCause>;
/** What moved at one place of the house: the bakehouse, or its own shop. */
interface AtPlace {
  /** What came back to it after it had left, or was sent to it. */
  readonly back: readonly Moved[];
  readonly out: readonly Moved[];
  readonly counts: readonly Moved[];
}
export interface Movements extends AtPlace {
  readonly into: readonly Moved[];
  /** What went as one of several lots and is not taken off: it may have gone of this one. */
  readonly perhaps?: readonly Moved[];
  /** Of what was sent to the own shop, which is the house's still; none where nothing was. */
  readonly shop?: AtPlace & { readonly hasSite: boolean };
}

/**
 * What is left of a lot in the house by the records, its own shop included: each piece once. From its last count or from when the rest of it was
 * destroyed, or else from its stated amount, or else from what went into it; with what came back, less what went out. May be below zero, which is a finding. Null where the start or any movement has no
 * figure. `unit` is milligrams or pieces.
 */
export function leftOf(stated: number | null, movements: Movements, unit: Measure): number | null {
  const { bakehouse, shop } = leftByPlace(stated, movements, unit);
  return bakehouse === null || shop === null ? null : bakehouse + shop;
}

export interface LeftByPlace {
  readonly bakehouse: number | null;
  readonly shop: number | null;
}

/** The same by where it is. A shop that records nothing itself sells by the bakehouse's book: what is more than was left there came from the shop. */
export function leftByPlace(stated: number | null, { shop: sent, ...made }: Movements, unit: Measure): LeftByPlace {
  const bakehouse = leftAt(stated, made, unit);
  if (!sent) return { bakehouse, shop: 0 };
  const shop = leftAt(0, { into: [], ...sent }, unit);
  if (sent.hasSite || bakehouse === null || shop === null || bakehouse >= 0) return { bakehouse, shop };
  return { bakehouse: Math.min(0, bakehouse + shop), shop: Math.max(0, shop + bakehouse) };
}

/** When all of a lot was last counted, or what was left of it destroyed, with what was there then; undefined where that never was. */
export const lastKnown = ({ counts, out }: Pick<AtPlace, 'counts' | 'out'>, unit: Measure): Moved | undefined =>
  latest([...counts.filter((c) => c[unit] !== null), ...out.filter((m) => m.decided === 'rest').map(nothing)]);

/** How much of what is left may be gone, as one of several lots; null where nobody can say. */
export function perhapsGone({ perhaps = [], ...here }: Movements, unit: Measure): number | null {
  const known = lastKnown(here, unit);
  return sumOf(
    perhaps.filter((m) => !known || m.at > known.at),
    unit,
  );
}

function leftAt(stated: number | null, { into, back, out, counts }: AtPlace & { readonly into: readonly Moved[] }, unit: Measure) {
  const count = lastKnown({ counts, out }, unit);
  const since = (m: Moved): boolean => !count || m.at > count.at;
  const [had, plus, minus] = [thereWas(stated, into, count, unit), sumOf(back.filter(since), unit), sumOf(out.filter(since), unit)];
  return had === null || plus === null || minus === null ? null : had + plus - minus;
}

type Amount = Pick<Moved, 'at' | 'mg' | 'pieces'>;

/**
 * How much there was of a lot: what was found when all of it was last counted or weighed, with what went into it since; else its stated amount, which holds what
 * went in; else what went in, as of vessels and makes. Null where nobody knows. What is left is this, less what went out since and with what came back. A count
 * from before any of it came says nothing of it.
 */
export function thereWas(stated: number | null, into: readonly Amount[], count: Amount | null | undefined, unit: Measure): number | null {
  const before = count && stated !== null && into.length > 0 && into.every((m) => m.at > count.at);
  if (count && !before) return sumOfKnown([count, ...into.filter((m) => m.at > count.at)].map((m) => m[unit]));
  return stated ?? (into.length === 0 ? null : sumOfKnown(into.map((m) => m[unit])));
}

const nothing = (m: Moved): Moved => ({ ...m, mg: 0, pieces: 0 });

const sumOf = (moved: readonly Moved[], unit: Measure): number | null => sumOfKnown(moved.map((m) => m[unit]));

interface LotRows {
  readonly into: readonly Moved[];
  /** Goods that came besides, and turned out to be the same lot. */
  readonly came?: readonly Moved[];
  readonly out: readonly Moved[];
  readonly departures: readonly (Moved & Left)[];
  readonly returned: readonly (Moved & CameBack)[];
  readonly counts: readonly (Moved & Counted)[];
  readonly carried: readonly (Carried & { readonly at: string })[];
  readonly counter: readonly OnCounter[];
}

/** The movements of one lot up to an instant, or all on record, from its rows. What came back and went straight to waste did not come back to the lot. */
export function movementsUntil(rows: LotRows, at: string | null): Movements {
  const until = <T extends { readonly at: string }>(some: readonly T[]): T[] => some.filter((row) => at === null || row.at <= at);
  const departures = until(rows.departures);
  const sold = soldOver(until(rows.counter), departures);
  const { bakehouse, shop } = byPlace({
    departures: [...departures, ...sold],
    returned: until(rows.returned),
    counts: until(rows.counts),
    carried: until(rows.carried),
  });
  return {
    into: until(rows.into),
    back: [...bakehouse.back, ...until(rows.came ?? [])],
    out: [...until(rows.out), ...bakehouse.gone],
    counts: bakehouse.counts,
    ...(shop
      ? {
          shop: {
            back: shop.back,
            out: [...shop.gone, ...departures.filter((d) => d.decided === 'rest')],
            counts: shop.counts,
            hasSite: shop.hasSite,
          },
        }
      : {}),
  };
}
