import { inOrder } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';
import { contentId } from '../standing/later-content.js';
import { carriedId, goneId, overId } from './content-rows.js';
import { openAt } from './open-at.js';

type Opened = Row<'inUse'>;
type Emptied = Row<'emptied'>;

/**
 * What is open at an instant. A vessel's content that was opened at a station is open there until it is taken away there, or the vessel is emptied; a top-up
 * goes on where the old content was open. That is read from what people told of the station, and not from what a top-up wrote of it, which could not know
 * what is told later.
 */
export function openNow(opened: readonly Opened[], emptied: readonly Emptied[], at: string): Opened[] {
  const contents = opened.filter((u) => u.id === contentId(u.lot));
  if (contents.length === 0) return each(openAt(opened, emptied, at));
  const vesselOf = new Map(contents.map((u) => [u.lot, u.station]));
  const lastIn = new Map(inOrder(contents.filter((u) => u.at <= at)).map((u) => [u.station, u]));
  const away = ({ lot, station }: { readonly lot: string; readonly station: string }): boolean =>
    (vesselOf.get(lot) ?? station) !== station;
  const byTopUp = writtenByTopUps(contents);
  const told = openAt(
    opened.filter((u) => !away(u)).concat(opened.filter((u) => away(u) && u.id !== carriedId(u.lot, u.station)).map(ofVessel)),
    emptied.filter((e) => !away(e)).concat(emptied.filter((e) => away(e) && !byTopUp(e)).map(ofVessel)),
    at,
  );
  const handEmptied = emptied.filter((e) => e.at <= at && contents.some((c) => c.station === e.station) && !byTopUp(e));
  return each(
    told.flatMap((u) => {
      const content = lastIn.get(u.lot);
      if (content === undefined) return [u];
      if (handEmptied.some((e) => e.station === u.lot && e.at >= u.at)) return [];
      const { lot, name, specification } = content;
      return [{ ...u, lot, name, specification, at: u.at > content.at ? u.at : content.at }];
    }),
  );

  /** All contents of a vessel count as one at another station. */
  function ofVessel<T extends Opened | Emptied>(row: T): T {
    return { ...row, lot: vesselOf.get(row.lot) ?? row.lot };
  }
}

/** Each lot once at a station for its material. */
const each = (open: readonly Opened[]): Opened[] => [...new Map(open.map((u) => [`${u.station} ${u.material} ${u.lot}`, u])).values()];

/** Tells which rows say that something is over because a top-up was recorded. */
function writtenByTopUps(contents: readonly Opened[]): (e: Emptied) => boolean {
  return ({ id, station, lot }) =>
    id === overId(lot, station, null) || contents.some((c) => id === goneId(c.lot, station) || id === overId(lot, station, c.lot));
}
