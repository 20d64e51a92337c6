import type { Row, Snapshot } from '@bakehouse/records';

/** The newest version of every formula that is in force and not retired, by name. */
export function formulasInUse(snapshot: Snapshot, at: string): Row<'formulaVersion'>[] {
  const newest = new Map<string, Row<'formulaVersion'>>();
  for (const v of snapshot.formulaVersion) {
    const other = newest.get(v.formula);
    if (v.since <= at && (!other || v.number > other.number)) newest.set(v.formula, v);
  }
  const retired = (v: Row<'formulaVersion'>): boolean =>
    snapshot.formulaRetired.some((a) => a.formula === v.formula && a.at >= v.since && a.at <= at);
  return [...newest.values()].filter((v) => !retired(v)).sort((a, b) => a.name.localeCompare(b.name));
}

/** The plan that is in force at a site: the last approved for it or for all sites. */
export function planInForce(snapshot: Snapshot, site: string, at: string): Row<'planVersion'> | undefined {
  const mine = snapshot.planVersion.filter((p) => (p.site === null || p.site === site) && p.since <= at);
  return mine.sort((a, b) => (a.since < b.since ? 1 : a.since > b.since ? -1 : b.number - a.number))[0];
}

/** Places that are in use now, of some types, in the order in which they were set up. */
export const placesAsSetUp = (snapshot: Snapshot, types: readonly Row<'place'>['type'][]): Row<'place'>[] =>
  placesOf(snapshot, types).sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : a.id < b.id ? -1 : 1));

/** Places that are in use now, of some types, by name. */
export function placesOf(snapshot: Snapshot, types: readonly Row<'place'>['type'][]): Row<'place'>[] {
  const out = new Set(snapshot.placeOut.map((o) => o.place));
  return snapshot.place.filter((p) => types.includes(p.type) && !out.has(p.id)).sort((a, b) => a.name.localeCompare(b.name));
}

/** Where makes are made. */
export const stationsOf = (snapshot: Snapshot): Row<'place'>[] => placesOf(snapshot, ['mixer', 'station']);
