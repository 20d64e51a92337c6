import { inOrder } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';
import { contentId } from '../standing/later-content.js';
import { openAt } from './open-at.js';

/**
 * What is open at an instant, with the last content of a vessel for an earlier one that was opened at a station: a top-up goes on where the old content was
 * open, also where the opening, or the top-up before, was recorded after it.
 */
export function openNow(opened: readonly Row<'inUse'>[], emptied: readonly Row<'emptied'>[], at: string): Row<'inUse'>[] {
  const open = openAt(opened, emptied, at);
  const ofContents = (rows: readonly Row<'inUse'>[]): Row<'inUse'>[] => rows.filter((u) => u.id === contentId(u.lot));
  const vesselOf = new Map(ofContents(opened).map((u) => [u.lot, u.station]));
  const lastIn = new Map(inOrder(ofContents(opened).filter((u) => u.at <= at)).map((u) => [u.station, u]));
  const now = open.map((u) => {
    const vessel = vesselOf.get(u.lot);
    const content = vessel === undefined || vessel === u.station ? undefined : lastIn.get(vessel);
    if (content === undefined || content.lot === u.lot) return u;
    const { lot, name, specification } = content;
    return { ...u, lot, name, specification, at: u.at > content.at ? u.at : content.at };
  });
  return [...new Map(now.map((u) => [`${u.station} ${u.material} ${u.lot}`, u])).values()];
}
