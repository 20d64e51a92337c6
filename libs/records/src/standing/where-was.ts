import { hoursAfter, inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { batchAt } from './musts.js';
import { alsoThisLot, alsoThisNeeds } from './same-lot.js';

/** Somewhere that a lot was, by the records, from then until then; until is null where no record says that it left. */
export interface Stay {
  readonly place: string;
  readonly from: string;
  readonly until: string | null;
  /** In an oven, and nobody said in which deck: perhaps in any of them. */
  readonly anyDeck: boolean;
}

/** Nothing stays in an oven longer than so many days, though nobody recorded that it came out. */
export const ovenDays = 3;

/** What has to be looked for, as far as can be named now, before `staysOf` can be asked of a lot. */
export function staysNeeds(state: State, lot: string): Need[] {
  const named = alsoThisNeeds(state, lot);
  const lots = named.every((need) => state.knows(need)) ? [lot, ...alsoThisLot(state, lot)] : [lot];
  return [...named, ...lots.flatMap((one) => ownNeeds(state, one))];
}

function ownNeeds(state: State, lot: string): Need[] {
  const batch = batchAt(state, lot);
  const lines = batch ? loadsNeeds(batch) : [];
  const loads = batch && lines.every((need) => state.knows(need)) ? loadsOfBatch(state, batch) : [];
  return [
    { in: 'lot', id: lot },
    { in: 'batch', id: lot },
    { in: 'moved', by: 'lot', value: lot },
    { in: 'inUse', by: 'lot', value: lot },
    { in: 'emptied', by: 'lot', value: lot },
    { in: 'counted', by: 'lot', value: lot },
    { in: 'make', id: lot },
    { in: 'divided', by: 'make', value: lot },
    { in: 'makeEnded', by: 'make', value: lot },
    { in: 'stage', by: 'subject', value: lot },
    ...lines,
    ...loads.flatMap((load): Need[] => [
      { in: 'load', id: load },
      { in: 'loadStep', by: 'load', value: load },
      { in: 'stage', by: 'subject', value: load },
    ]),
  ];
}

/**
 * Where a lot was, and what turned out to be it: carried there, or carried away from there; opened at a station, or in a vessel; counted there; made at a station
 * until it was divided or ended; in a prover, a retarder or the like; baked in an oven. As known at an instant, or now. What nobody recorded is not among it. Needs
 * `staysNeeds`.
 */
export const staysOf = (state: State, lot: string, at: string | null = null): Stay[] =>
  [lot, ...alsoThisLot(state, lot)].flatMap((one) => ownStays(state, one, (rows) => rows.filter((row) => at === null || row.at <= at)));

type Timed = { readonly at: string };
type Then = <T extends Timed>(rows: readonly T[]) => readonly T[];

function ownStays(state: State, lot: string, then: Then): Stay[] {
  const since = state.get('lot', lot)?.at ?? '';
  const batch = state.get('batch', lot);
  const loads = batch ? loadsOfBatch(state, batch) : [];
  return [
    ...stoodAt(state, lot, since, then),
    ...madeAt(state, lot, then),
    ...[lot, ...loads].flatMap((subject) => stagesAt(then(state.find('stage', 'subject', subject)), since)),
    ...(batch ? loads.flatMap((load) => bakedAt(state, load, batch, then)) : []),
  ];
}

const stay = (place: string, from: string, until: string | null): Stay => ({ place, from, until, anyDeck: false });
const earliest = (...times: readonly (string | null | undefined)[]): string | null =>
  times.filter((t) => typeof t === 'string').sort()[0] ?? null;
const firstSince = (rows: readonly Timed[], from: string): string | null => earliest(...rows.map((r) => r.at).filter((at) => at >= from));

function stoodAt(state: State, lot: string, since: string, then: Then): Stay[] {
  const moved = inOrder(then(state.find('moved', 'lot', lot)));
  const counted = then(state.find('counted', 'lot', lot));
  const emptied = then(state.find('emptied', 'lot', lot));
  const isAll = (m: Row<'moved'>): boolean => m.mg === null && m.pieces === null;
  /** When all of it was carried elsewhere from there, or nothing was found there. */
  const left = (place: string, from: string): string | null =>
    earliest(
      firstSince(
        moved.filter((m) => isAll(m) && m.toPlace !== place && (m.fromPlace === null || m.fromPlace === place)),
        from,
      ),
      firstSince(
        counted.filter((c) => c.place === place && (c.mg ?? c.pieces) === 0),
        from,
      ),
    );
  const from = (place: string, at: string): Stay => stay(place, at, left(place, at));
  const cameUnseen = moved.flatMap(({ fromPlace, at }): Stay[] => {
    const seen = fromPlace === null || moved.some((m) => m.toPlace === fromPlace && m.at <= at);
    return seen ? [] : [from(fromPlace, since < at ? since : at)];
  });
  return [
    ...cameUnseen,
    ...moved.map((m) => from(m.toPlace, m.at)),
    ...counted.flatMap((c) => (c.place === null || (c.mg ?? c.pieces) === 0 ? [] : [from(c.place, c.at)])),
    ...then(state.find('inUse', 'lot', lot)).map((u) =>
      stay(
        u.station,
        u.at,
        earliest(
          left(u.station, u.at),
          firstSince(
            emptied.filter((e) => e.station === u.station),
            u.at,
          ),
        ),
      ),
    ),
  ];
}

function madeAt(state: State, lot: string, then: Then): Stay[] {
  const [make] = then([state.get('make', lot)].flatMap((m) => m ?? []));
  if (!make || make.station === null) return [];
  const ends: readonly Timed[] = [...then(state.find('divided', 'make', lot)), ...then(state.find('makeEnded', 'make', lot))];
  return [
    stay(
      make.station,
      make.at,
      ends
        .map((e) => e.at)
        .sort()
        .at(-1) ?? null,
    ),
  ];
}

function stagesAt(stages: readonly Row<'stage'>[], since: string): Stay[] {
  return inOrder(stages).flatMap((s): Stay[] => {
    if (s.place === null) return [];
    if (s.way === 'once') return [stay(s.place, s.at, s.at)];
    const same = stages.filter((o) => o.step === s.step);
    if (s.way === 'in')
      return [
        stay(
          s.place,
          s.at,
          firstSince(
            same.filter((o) => o.way === 'out'),
            s.at,
          ),
        ),
      ];
    const into = same.filter((o) => o.way === 'in' && o.at <= s.at);
    return into.some((o) => o.place === s.place)
      ? []
      : [
          stay(
            s.place,
            into
              .map((o) => o.at)
              .sort()
              .at(-1) ?? since,
            s.at,
          ),
        ];
  });
}

function bakedAt(state: State, id: string, batch: Row<'batch'>, then: Then): Stay[] {
  const [load] = then([state.get('load', id)].flatMap((l) => l ?? []));
  if (!load) return [];
  const out = then(state.find('loadStep', 'load', id)).filter((s) => s.step === 'out' || s.step === 'out-again');
  const last =
    out
      .map((s) => s.at)
      .sort()
      .at(-1) ?? (batch.at > load.at ? batch.at : load.at);
  const most = hoursAfter(load.at, 24 * ovenDays);
  const until = last < most ? last : most;
  return [
    { place: load.oven, from: load.at, until, anyDeck: load.deck === null },
    ...(load.deck === null ? [] : [stay(load.deck, load.at, until)]),
  ];
}
