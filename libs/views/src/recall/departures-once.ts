import { grouped } from '@bakehouse/kernel';

/** A departure as of one lot. What went as one or more of several lots has a row for each of them, all of one group, each with the whole amount. */
export interface DepartureOfLot {
  readonly lot: string;
  readonly anyOf: string | null;
  /** How many lots the group has, in scope or not; 1 where it is known which lot went. */
  readonly among: number;
  /** Whether this lot, if it is what went, surely holds what is looked for. */
  readonly certain: boolean;
  /** Whether some of what went surely is of lots that hold it, as those that do not had too little. */
  readonly someCertain: boolean;
}

/**
 * Each departure once, with all its lots that are in scope in the order of their ids: certain where whichever of its lots it was surely holds it, or the
 * lots that do not hold it had too little to be all of it.
 */
export function departuresOnce<D extends DepartureOfLot>(
  departures: readonly D[],
): { readonly of: D; readonly lots: readonly D[]; readonly certain: boolean }[] {
  return [...grouped(departures, (d) => d.anyOf ?? d).values()].flatMap((rows) => {
    const lots = [...rows].sort((a, b) => (a.lot < b.lot ? -1 : 1));
    const [of] = lots;
    return of === undefined ? [] : [{ of, lots, certain: of.someCertain || (lots.length >= of.among && lots.every((d) => d.certain)) }];
  });
}
