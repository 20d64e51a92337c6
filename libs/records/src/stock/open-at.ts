import { inOrder } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';

/**
 * What is open at an instant, of these openings and emptyings. An opening replaces what was open at that station for that material,
 * unless it stands beside it; emptying takes its lot away. At one and the same instant emptying comes last.
 */
export function openAt(opened: readonly Row<'inUse'>[], emptied: readonly Row<'emptied'>[], at: string): Row<'inUse'>[] {
  const places = new Map<string, Row<'inUse'>[]>();
  for (const o of inOrder(opened.filter((row) => row.at <= at))) {
    const key = `${o.station} ${o.material}`;
    places.set(key, o.beside ? [...(places.get(key) ?? []), o] : [o]);
  }
  const gone = (o: Row<'inUse'>): boolean => emptied.some((e) => e.station === o.station && e.lot === o.lot && o.at <= e.at && e.at <= at);
  return [...places.values()].flat().filter((o) => !gone(o));
}
