import { grouped, inOrder, latest, sumOfKnown } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';

export interface Moved {
  readonly id: string;
  readonly at: string;
  readonly mg: number | null;
  readonly pieces: number | null;
  /** A signed decision took all that was left then: after it there is nothing, however much it was. */
  readonly decided?: Row<'departure'>['decided'];
}
/** What left a lot, the site that recorded it, and whether it only went to a shop of the house. */
export interface Left {
  readonly id: string;
  readonly at: string;
  readonly channel: string;
  readonly customer: string | null;
  readonly site: string;
  readonly toShop: boolean;
  /** By a signed decision about the food, wherever it stood. */
  readonly decided?: Row<'departure'>['decided'];
}
/** What becomes of goods that come back: these are in the house again, to be sold or used, until something more is recorded of them. */
export const backAgain: readonly string[] = ['on-hand', 'rework'];
export const comesBack = (disposition: string): boolean => backAgain.includes(disposition);
export interface CameBack {
  readonly disposition: string;
  readonly site: string;
  readonly fromShop: boolean;
}
export interface Counted {
  readonly id: string;
  readonly at: string;
  /** Null where it was weighed as it was made. */
  readonly site: string | null;
  /** The place that was counted, where one was named. */
  readonly place: string | null;
  readonly mg: number | null;
  readonly pieces: number | null;
}
/** Carried to another place of its site; without an amount, all of it. */
export interface Carried {
  readonly toPlace: string;
  readonly mg: number | null;
  readonly pieces: number | null;
}
export interface OnCounter {
  readonly id: string;
  readonly way: 'on' | 'off';
  readonly pieces: number | null;
  readonly site: string;
  readonly at: string;
}

/** Whether what went this way is still the house's: its own shop is no customer, whichever way the van took it there. */
export const staysInTheHouse = (channel: string, customerType: string | null | undefined): boolean =>
  channel === 'own-shop' || customerType === 'own-shop';

interface Rows<D, R, C> {
  readonly departures: readonly D[];
  readonly returned: readonly R[];
  readonly counts: readonly C[];
  readonly carried: readonly Carried[];
}
interface Place<D, R, C> {
  readonly gone: readonly (D | R)[];
  readonly back: readonly (D | R)[];
  readonly counts: readonly C[];
}
interface Places<D, R, C> {
  readonly bakehouse: Place<D, R, C>;
  /** Null where nothing was sent to a shop. `hasSite`: it keeps records of its own. */
  readonly shop: (Place<D, R, C> & { readonly hasSite: boolean }) | null;
}

/**
 * What moved of a lot at the site that sent it to a shop of the house, and what moved in the shop. What is sent there leaves the one and comes to the other;
 * what is thrown away or given away when it comes back left the shop for good. What a shop sends to a shop stays in the shops. A count closes the balance of
 * the site that counted and of no other, but not that of a shop where more than one shop has some of it: nobody recorded how much went to which.
 */
export function byPlace<D extends Left, R extends CameBack, C extends Counted>(rows: Rows<D, R, C>): Places<D, R, C> {
  const counts = closing(rows.counts, rows.carried);
  const sender = senderOf(rows.departures);
  const sent = rows.departures.filter((d) => d.toShop && d.site === sender);
  const left = rows.departures.filter((d) => !d.toShop);
  const back = rows.returned.filter((r) => !r.fromShop && comesBack(r.disposition));
  const away = rows.returned.filter((r) => r.fromShop && !comesBack(r.disposition));
  if (sent.length === 0) return { bakehouse: { gone: [...left, ...away], back, counts }, shop: null };
  const again = rows.returned.filter((r) => r.fromShop && comesBack(r.disposition));
  const here = (row: Recorded): boolean => row.site === null || isAnywhere(row) || row.site === sender;
  const there = (row: Recorded): boolean => !here(row);
  const sites = new Set([...left, ...back, ...counts].filter(there).map((row) => row.site));
  const one = sites.size === 1 && new Set(sent.map((d) => d.customer)).size === 1;
  return {
    bakehouse: { gone: [...left.filter(here), ...sent], back: [...back.filter(here), ...again], counts: counts.filter(here) },
    shop: {
      gone: [...left.filter(there), ...away, ...again],
      back: [...sent, ...back.filter(there)],
      counts: one ? counts.filter(there) : [],
      hasSite: sites.size > 0 && !left.some(isAnywhere),
    },
  };
}

/** The site that sent a lot to a shop of the house: the first that did, since nothing can come on from a shop before it was sent there. */
export const senderOf = (departures: readonly Pick<Left, 'id' | 'at' | 'site' | 'toShop'>[]): string | null =>
  inOrder(departures.filter((d) => d.toShop))[0]?.site ?? null;

/**
 * The last count that closes the balance of each site. One of the whole site does. Those of places that were named do so together, as one: once each
 * place was counted that some of the lot was carried to, and one that it was not carried to. Nothing found anywhere closes none: it may stand elsewhere.
 */
function closing<C extends Counted>(counts: readonly C[], carried: readonly Carried[]): C[] {
  const some = new Set(carried.filter((m) => m.mg !== null || m.pieces !== null).map((m) => m.toPlace));
  return [...grouped(counts, (c) => c.site).values()].flatMap((ofSite) => {
    const whole = latest(ofSite.filter((c) => c.place === null));
    const named = ofSite.filter((c) => c.place !== null && (!whole || c.at > whole.at));
    const places = [...grouped(named, (c) => c.place).values()].flatMap((of) => latest(of) ?? []);
    const counted = new Set(places.map((c) => c.place));
    const everywhere =
      [...some].every((p) => counted.has(p)) && (some.size === 0 || places.some((c) => c.place !== null && !some.has(c.place)));
    const last = latest(places);
    const [mg, pieces] = [sumOfKnown(places.map((c) => c.mg)), sumOfKnown(places.map((c) => c.pieces))];
    const together = last && everywhere && (mg ?? pieces ?? 0) > 0 ? [{ ...last, mg, pieces }] : [];
    return [...(whole ? [whole] : []), ...together];
  });
}

interface Recorded {
  readonly site: string | null;
  readonly decided?: Row<'departure'>['decided'];
}

/** A decision in a recall case, and one about all that is left, is about the lot wherever it stands: as far as it is more than is left here, it was in the shop. */
const isAnywhere = ({ decided }: Pick<Recorded, 'decided'>): boolean => decided === 'amount' || decided === 'rest';

/** What was sold over a counter by difference. */
export interface Sold extends Moved, Left {}

/**
 * What went on a counter and did not come off it again was sold there: as far as no sale is recorded besides, since those are the same pieces. Nobody knows
 * how many where either number is missing and no sale is recorded. What is on the counter still is the house's until somebody takes it off, throws it away,
 * sells it or counts it; the end of the day does away with nothing, nor does a date on it, because nobody may have looked.
 */
export function soldOver(counter: readonly OnCounter[], departures: readonly (Moved & Left)[]): Sold[] {
  return [...grouped(counter, (c) => c.site)].flatMap(([site, rows]) => {
    const sales = departures.filter((d) => d.channel === 'counter' && d.site === site);
    const windows = windowsOf(inOrder(rows));
    return windows.flatMap(({ from, off, on }, i): Sold[] => {
      if (!off) return [];
      const next = windows[i + 1]?.from ?? null;
      const recorded = sales.filter((s) => s.at >= from && (next === null || s.at < next));
      const common = { id: off.id, at: off.at, mg: 0, channel: 'counter', customer: null, site, toShop: false };
      if (on === null || off.pieces === null) return recorded.length > 0 ? [] : [{ ...common, pieces: null }];
      const more = recorded.reduce((left, s) => left - (s.pieces ?? left), on - off.pieces);
      return more > 0 ? [{ ...common, pieces: more }] : [];
    });
  });
}

interface StandsOnCounter {
  readonly site: string;
  readonly since: string;
  readonly pieces: number | null;
  /** A recall case decided on some of the lot since, and nobody said where that stood. */
  readonly mayBeFewer: boolean;
}

/** What stands on the counters: put on and not taken off since, less what is recorded as sold over that counter. Null pieces where nobody can say how many. */
export function onCounters(
  counter: readonly OnCounter[],
  departures: readonly (Moved & Left & { readonly certain: boolean })[],
): StandsOnCounter[] {
  return [...grouped(counter, (c) => c.site)].flatMap(([site, rows]) => {
    const last = windowsOf(inOrder(rows)).at(-1);
    if (!last || last.off !== null) return [];
    const sold = departures.filter((d) => d.certain && d.channel === 'counter' && d.site === site && d.at >= last.from);
    const gone = sumOfKnown(sold.map((d) => d.pieces));
    const mayBeFewer = departures.some((d) => d.decided === 'amount' && d.at >= last.from);
    return [{ site, since: last.from, pieces: last.on === null || gone === null ? null : last.on - gone, mayBeFewer }];
  });
}

/** The times that a lot stood on the counter of one site. */
export const counterWindows = (ofSite: readonly OnCounter[]): ReturnType<typeof windowsOf> => windowsOf(inOrder(ofSite));

/** From the first time that it was put on until it came off, with all that was put on in between. */
function windowsOf(rows: readonly OnCounter[]): { readonly from: string; readonly on: number | null; readonly off: OnCounter | null }[] {
  const windows: { from: string; on: number | null; off: OnCounter | null }[] = [];
  for (const row of rows) {
    const open = windows.at(-1);
    if (row.way === 'on' && open && open.off === null) open.on = open.on === null || row.pieces === null ? null : open.on + row.pieces;
    else if (row.way === 'on') windows.push({ from: row.at, on: row.pieces, off: null });
    else if (open && open.off === null) open.off = row;
  }
  return windows;
}
