import { alikeHeld, lifeOfOpened, openNow, type LotTrouble } from '@bakehouse/records';
import { codeOf, leftRangeIn, saidOf, troubleOn, type LotCode, type Lookup } from '../lookup/lookup.js';

export interface InUseView {
  readonly station: string;
  readonly stationName: string | null;
  readonly material: string;
  readonly lot: string;
  readonly name: string;
  readonly code: LotCode;
  readonly since: string;
  readonly leftMg: number | null;
  readonly perhapsMg: number | null;
  /** Open for longer than its specification allows once opened. */
  readonly openTooLong: boolean;
  readonly trouble: LotTrouble | null;
  /** What is said of it where it is offered: its trouble, or that it is past its best-before date. */
  readonly said: ReturnType<typeof saidOf>;
  /** Lots of the same code and material that something speaks against: this may be one lot of the supplier's with them. */
  readonly alikeHeld: readonly string[];
}

/** What is open at every station now, by station and then in the order it was opened. */
export function inUseView(lookup: Lookup): InUseView[] {
  const { snapshot, state, at } = lookup;
  const views = openNow(snapshot.inUse, snapshot.emptied, at).map((u): InUseView => {
    const life = lifeOfOpened(state, u);
    return {
      station: u.station,
      stationName: state.get('place', u.station)?.name ?? null,
      material: u.material,
      lot: u.lot,
      name: u.name,
      code: codeOf(lookup, u.lot),
      since: u.at,
      ...leftRangeIn(lookup, u.lot),
      openTooLong: life !== null && life.ends < at,
      trouble: troubleOn(lookup, u.lot),
      said: saidOf(lookup, u.lot),
      alikeHeld: alikeHeld(state, u.lot),
    };
  });
  return views.sort((a, b) => (a.station < b.station ? -1 : a.station > b.station ? 1 : a.since < b.since ? -1 : 1));
}
