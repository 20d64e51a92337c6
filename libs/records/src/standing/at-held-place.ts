import { staysNeeds, staysOf, type Stay } from './where-was.js';
import { batchAt } from './musts.js';
import type { Need, Row, State } from '../base/state.js';

/** A place that somebody put on hold, and when that was over for what comes there: as they said, or once it may be used again; null where it is not over. */
export interface HeldPlace extends Pick<Row<'placeHold'>, 'id' | 'place' | 'placeName' | 'begins' | 'because' | 'at'> {
  readonly over: string | null;
}

const holdNeeds: readonly Need[] = [
  { in: 'placeHold', by: 'held', value: 'place' },
  { in: 'placeHoldEnded', by: 'held', value: 'place' },
];

/** The places that were ever put on hold, as known at an instant, or now. */
export function heldPlaces(state: State, at: string | null = null): HeldPlace[] {
  if (!holdNeeds.every((need) => state.knows(need))) return [];
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((row) => at === null || row.at <= at);
  const ended = then(state.find('placeHoldEnded', 'held', 'place'));
  return then(state.find('placeHold', 'held', 'place')).map(({ id, place, placeName, begins, ends, because, at: since }) => ({
    id,
    place,
    placeName,
    begins,
    because,
    at: since,
    over: [...(ends === null ? [] : [ends]), ...ended.flatMap((e) => (e.hold === id ? e.at : []))].sort()[0] ?? null,
  }));
}

/** Those of them that were not over when a lot came about: what came later was never there then. A batch was in the oven before it was counted out. */
function holdsFor(state: State, lot: string, at: string | null): HeldPlace[] {
  const holds = heldPlaces(state, at);
  const row = holds.length > 0 && state.knows({ in: 'lot', id: lot }) ? state.get('lot', lot) : undefined;
  const batch = row?.type === 'batch' ? batchAt(state, lot) : undefined;
  const lines: Need | undefined = batch && { in: 'loadLine', by: 'run', value: batch.run };
  const loaded = batch && lines && state.knows(lines) ? state.find('loadLine', 'run', batch.run).map((line) => line.at) : [];
  const began = row?.type === 'batch' ? loaded.sort()[0] : row?.at;
  return began === undefined ? holds : holds.filter((h) => h.over === null || began <= h.over);
}

/** A place and what it stands within. */
function around(state: State, place: string): string[] {
  const found = [place];
  for (const one of found) {
    const within = state.knows({ in: 'place', id: one }) ? state.get('place', one)?.within : null;
    if (within !== null && within !== undefined && !found.includes(within)) found.push(within);
  }
  return found;
}

/** What has to be looked for, as far as can be named now, before `atHeldPlace` can be asked of a lot. Where no place was ever put on hold, that alone. */
export function heldPlaceNeeds(state: State, lot: string): Need[] {
  const holds = holdsFor(state, lot, null);
  if (holds.length === 0) return [...holdNeeds];
  const stays = staysNeeds(state, lot);
  if (!stays.every((need) => state.knows(need))) return [...holdNeeds, ...stays];
  const places = [...staysOf(state, lot).map((s) => s.place), ...holds.map((h) => h.place)];
  return [...holdNeeds, ...stays, ...[...new Set(places.flatMap((p) => around(state, p)))].map((id): Need => ({ in: 'place', id }))];
}

/** Whether a stay was at a held place or within it; in an oven of which it is one deck, where nobody named the deck, perhaps. */
function isAt(state: State, { place, anyDeck }: Stay, held: string): 'surely' | 'perhaps' | null {
  if (around(state, place).includes(held)) return 'surely';
  const row = anyDeck && state.knows({ in: 'place', id: held }) ? state.get('place', held) : undefined;
  return row?.type === 'deck' && row.within === place ? 'perhaps' : null;
}

const overlaps = (s: Stay, h: HeldPlace): boolean => (h.over === null || s.from <= h.over) && (s.until === null || s.until >= h.begins);

/** A place on hold that a lot was at then, and since when it was there. */
export interface AtHeldPlace {
  readonly hold: HeldPlace;
  readonly from: string;
  readonly certain: boolean;
}

/**
 * The holds on places that a lot was at while they were on hold, as known at an instant, or now: in order of what happened, so that a late record of where it was
 * brings it under the hold, and one that it was elsewhere takes it out. Needs `heldPlaceNeeds`.
 */
export function atHeldPlace(state: State, lot: string, at: string | null = null): AtHeldPlace[] {
  const holds = holdsFor(state, lot, at);
  if (holds.length === 0 || !staysNeeds(state, lot).every((need) => state.knows(need))) return [];
  const stays = staysOf(state, lot, at);
  return holds.flatMap((hold): AtHeldPlace[] => {
    const there = stays
      .filter((s) => overlaps(s, hold))
      .map((s) => ({ from: s.from > hold.begins ? s.from : hold.begins, how: isAt(state, s, hold.place) }))
      .filter((s) => s.how !== null);
    const [from] = there.map((s) => s.from).sort();
    return from === undefined ? [] : [{ hold, from, certain: there.some((s) => s.how === 'surely') }];
  });
}

export const heldPlaceText = ({ placeName, because }: HeldPlace): string => (because === null ? placeName : `${placeName}: ${because}`);
