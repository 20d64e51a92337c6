import type { TraceGraph, TraceLot } from '@bakehouse/graph';
import { grouped, latest, sumOfKnown } from '@bakehouse/kernel';
import type { Ends } from './rows.js';

/** The lot that each of these turned out to be, as it was named last. */
export function namedAs({ flows }: TraceGraph): ReadonlyMap<string, string> {
  const named = grouped(
    flows.filter((f) => f.type === 'identified'),
    (f) => f.target,
  );
  const as = new Map([...named].flatMap(([lot, of]): [string, string][] => [[lot, latest(of)?.source ?? lot]]));
  return new Map([...as.keys()].map((lot) => [lot, followed(lot, as)]));
}

function followed(lot: string, as: ReadonlyMap<string, string>): string {
  const seen = new Set([lot]);
  for (const one of seen) {
    const next = as.get(one);
    if (next !== undefined) seen.add(next);
  }
  return [...seen].at(-1) ?? lot;
}

/** What came and went of a lot that turned out to be another came and went of that. A count is of the lot that was counted. */
export function underOneLot(ends: Ends, as: ReadonlyMap<string, string>): Ends {
  if (as.size === 0) return ends;
  const under = <T extends { readonly lot: string }>(rows: readonly T[]): T[] =>
    rows.map((row) => ({ ...row, lot: as.get(row.lot) ?? row.lot }));
  return {
    departures: under(ends.departures),
    returned: under(ends.returned),
    counts: ends.counts.filter((c) => (as.get(c.lot) ?? c.lot) === c.lot),
    counter: under(ends.counter),
    carried: under(ends.carried),
    uses: under(ends.uses),
  };
}

/** The lots with what there was of each: with what came of it under another name, and of that nothing. */
export function amountsUnderOneLot(lots: ReadonlyMap<string, TraceLot>, as: ReadonlyMap<string, string>): ReadonlyMap<string, TraceLot> {
  if (as.size === 0) return lots;
  const also = grouped(
    [...as].flatMap(([id, lot]) => (id === lot ? [] : [{ lot, of: lots.get(id) }])),
    (a) => a.lot,
  );
  return new Map(
    [...lots].map(([id, lot]) => {
      if ((as.get(id) ?? id) !== id) return [id, { ...lot, mg: null, pieces: null }];
      const came = (also.get(id) ?? []).flatMap(({ of }) => (of === undefined || of.unnamed || of.type === 'withdrawn' ? [] : of));
      const sum = (unit: 'mg' | 'pieces'): number | null =>
        came.length === 0 ? lot[unit] : sumOfKnown([lot, ...came].map((l) => l[unit]));
      return [id, { ...lot, mg: sum('mg'), pieces: sum('pieces') }];
    }),
  );
}
