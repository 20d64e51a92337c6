import { latest } from '@bakehouse/kernel';
import type { CarriedOver, Need, Row, State } from '../base/state.js';
import { movementsUntil, type LeftByPlace, type Measure, type Movements } from './left-of.js';
import { isUnnamed } from './not-known.js';
import { alsoThisLot, alsoThisNeeds } from './same-lot.js';
import { countedInPieces, eachAmountOnce } from '../rows/stock.js';
import { senderOf, staysInTheHouse } from './places.js';

/** What a lot is measured in. */
export const measureOf = (lot: Parameters<typeof countedInPieces>[0] | undefined): Measure =>
  lot && countedInPieces(lot) ? 'pieces' : 'mg';

/** What is known of a whole lot at an instant: counts, and what a make weighed when it came to its end, after what evaporated. */
const countsOf = (state: State, lot: string) => [
  ...state.find('counted', 'lot', lot),
  ...state.find('makeEnded', 'make', lot).map((e) => ({ ...e, pieces: null, place: null, site: null })),
];

/** What has to be looked for, as far as can be named now, before `movementsOf` can be asked of a lot. */
export function movementNeeds(state: State, lot: string): Need[] {
  const named = alsoThisNeeds(state, lot);
  const also = named.every((need) => state.knows(need)) ? alsoThisLot(state, lot) : [];
  return [
    ...named,
    ...wentNeeds(state, lot),
    { in: 'flow', by: 'target', value: lot },
    { in: 'counted', by: 'lot', value: lot },
    { in: 'makeEnded', by: 'make', value: lot },
    ...also.flatMap((one) => wentNeeds(state, one)),
  ];
}

function wentNeeds(state: State, lot: string): Need[] {
  const departures: Need = { in: 'departure', by: 'lot', value: lot };
  const returned: Need = { in: 'returned', by: 'lot', value: lot };
  const first: Need[] = [
    { in: 'lot', id: lot },
    { in: 'flow', by: 'source', value: lot },
    departures,
    returned,
    { in: 'onCounter', by: 'lot', value: lot },
    { in: 'moved', by: 'lot', value: lot },
  ];
  if (!state.knows(departures) || !state.knows(returned)) return first;
  const customers = [...state.find('departure', 'lot', lot), ...state.find('returned', 'lot', lot)].flatMap((d) => d.customer ?? []);
  return [...first, ...[...new Set(customers)].map((customer): Need => ({ in: 'party', by: 'party', value: customer }))];
}

/** Whether goods went to a shop of the house itself. */
export const wentToShop = (state: State, { channel, customer }: Pick<Row<'departure'>, 'channel' | 'customer'>): boolean =>
  staysInTheHouse(channel, customer === null ? null : latest(sinceOf(state, customer))?.type);

const sinceOf = (state: State, party: string) =>
  state.find('party', 'party', party).map(({ id, type, since }) => ({ id, type, at: since }));

interface Which {
  /** What left, or went into something else, as one of several lots: of each of them nobody knows how much; or left out, where it is taken off their sum. */
  readonly oneOfSeveral: 'unknown' | 'left-out';
  /** Only what surely went into something else. */
  readonly certainUses?: true;
  /** Uses that do not count, by the ids of their flows. */
  readonly without?: ReadonlySet<string>;
  /** A chain whose own rows do not count. */
  readonly except?: string;
}

/**
 * The movements of a lot until an instant: every amount of a lot that anybody is told starts from this. With those of what turned out to be the same lot; a count
 * is of the lot that was counted. Needs `movementNeeds`.
 */
export function movementsOf(
  state: State,
  lot: string,
  at: string | null,
  { oneOfSeveral, certainUses, without, except }: Which,
): Movements {
  const also = alsoThisLot(state, lot);
  const ofAll = <T>(rows: (one: string) => readonly T[]): readonly T[] => (also.length === 0 ? rows(lot) : [lot, ...also].flatMap(rows));
  const all = ofAll((one) => state.find('departure', 'lot', one));
  const shops = new Set(all.filter((d) => wentToShop(state, d)).map((d) => d.id));
  const departures = all.flatMap((d) => asOneOf({ ...d, toShop: shops.has(d.id) }, oneOfSeveral));
  const returned = ofAll((one) => state.find('returned', 'lot', one)).map((r) => ({
    ...r,
    fromShop: r.departure === null ? wentToShop(state, { channel: 'dispatch', ...r }) : shops.has(r.departure),
  }));
  const counts = countsOf(state, lot).filter((c) => c.id !== except);
  const rows = {
    into: eachAmountOnce(state.find('flow', 'target', lot)),
    came: also.flatMap((one) => state.get('lot', one) ?? []).filter((row) => !isUnnamed(row) && row.type !== 'withdrawn'),
    out: ofAll((one) => state.find('flow', 'source', one))
      .filter((f) => without?.has(f.id) !== true)
      .flatMap((f) => asOneOf(f, certainUses ? 'left-out' : oneOfSeveral)),
    departures,
    returned,
    counts,
    counter: ofAll((one) => state.find('onCounter', 'lot', one)),
    carried: ofAll((one) => state.find('moved', 'lot', one)),
  };
  const perhaps = [...ofAll((one) => state.find('flow', 'source', one)), ...all.filter((d) => !shops.has(d.id))].filter(
    (m) => !m.certain && (at === null || m.at <= at),
  );
  const moved = { ...movementsUntil(rows, at), perhaps };
  const carried = state.carriedOver?.get(lot);
  return carried === undefined || state.find('counted', 'lot', lot).some((c) => c.id === except && c.at === carried.at)
    ? moved
    : startingFrom(carried, moved);
}

/**
 * Movements of which only some are on this device, with what the others come to: as if all of it had been found then, until somebody counts it again. Where nobody
 * can say what was left, something went of which nobody knows how much.
 */
function startingFrom({ at, mg, perhapsMg }: CarriedOver, moved: Movements): Movements {
  const start = { id: 'carried over', at: at ?? '', mg, pieces: null };
  const counts = moved.counts.filter((c) => c.at > start.at);
  const perhaps = perhapsMg === 0 ? moved.perhaps : [...(moved.perhaps ?? []), { ...start, at: `${start.at}+`, mg: perhapsMg }];
  if (mg !== null) return { ...moved, counts: [...counts, start], ...(perhaps ? { perhaps } : {}) };
  const unknown = { ...start, at: `${start.at}+` };
  return { ...moved, counts, out: [...moved.out, unknown], ...(perhaps ? { perhaps } : {}) };
}

/** Whether nobody recorded that some of a lot was carried elsewhere: then a count at one place may be compared with what there should be. */
export const standsTogether = (state: State, lot: string, at: string): boolean =>
  state.find('moved', 'lot', lot).every((m) => m.at > at || (m.mg === null && m.pieces === null));

/** What went of a lot: all of it where that is certain, else as it is to be taken. */
function asOneOf<M extends { readonly certain: boolean }>(moved: M, oneOfSeveral: Which['oneOfSeveral']) {
  if (moved.certain) return [moved];
  return oneOfSeveral === 'unknown' ? [{ ...moved, mg: null, pieces: null }] : [];
}

/** What left of a lot, each with whether that went to a shop of the house. */
export const departuresOf = (state: State, lot: string): readonly (Row<'departure'> & { readonly toShop: boolean })[] =>
  state.find('departure', 'lot', lot).map((d) => ({ ...d, toShop: wentToShop(state, d) }));

/** Whether a site has a lot as the bakehouse that made it or bought it, or as a shop that some of it was sent to. */
export function placeOf(state: State, lot: string, site: string): keyof LeftByPlace {
  const sender = senderOf(departuresOf(state, lot));
  return sender === null || sender === site ? 'bakehouse' : 'shop';
}
