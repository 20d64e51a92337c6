import { formulasInForce, type Row, type Snapshot } from '@bakehouse/records';

/** The formulas that are in force, by name. */
export const formulasInUse = ({ formulaVersion, formulaRetired }: Snapshot, at: string): Row<'formulaVersion'>[] =>
  formulasInForce(formulaVersion, formulaRetired, at).sort((a, b) => a.name.localeCompare(b.name));

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
