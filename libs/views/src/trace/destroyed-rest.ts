import type { TraceLot } from '@bakehouse/graph';
import { grouped } from '@bakehouse/kernel';
import { leftOf, measureOf, movementsUntil, type Moved } from '@bakehouse/records';
import { departedFrom, returnedFrom } from './account-rows.js';
import type { DepartureRow, EndsWithInto } from './rows.js';

/**
 * Where all that was left of a lot was destroyed, fed or returned by a signed decision, how much that was: what was left of it then by the records. So
 * it is one amount in every list and balance, whatever came to be known later of what had left before.
 */
export function withDestroyedRest(ends: EndsWithInto, lots: ReadonlyMap<string, TraceLot>): EndsWithInto {
  if (!ends.departures.some((d) => d.decided === 'rest')) return ends;
  const [uses, departures] = [grouped(ends.uses, (u) => u.lot), grouped(ends.departures, (d) => d.lot)];
  const [returned, counts] = [grouped(ends.returned, (r) => r.lot), grouped(ends.counts, (c) => c.lot)];
  const counter = grouped(ends.counter, (c) => c.lot);
  const [carried, intoLot] = [grouped(ends.carried, (c) => c.lot), grouped(ends.into, (f) => f.lot)];
  const amountOf = (d: DepartureRow): DepartureRow => {
    const lot = lots.get(d.lot);
    if (d.decided !== 'rest' || !lot) return d;
    const unit = measureOf(lot);
    const others = (departures.get(d.lot) ?? []).filter((o) => o.id !== d.id && o.certain);
    const into = intoLot.get(d.lot) ?? [];
    const rows = {
      into,
      out: (uses.get(d.lot) ?? []).filter((u) => u.certain && u.anyOf === null).map(moved),
      departures: others.map((o) => ({ ...departedFrom(o), decided: o.at < d.at ? o.decided : null })),
      returned: (returned.get(d.lot) ?? []).map(returnedFrom),
      counts: counts.get(d.lot) ?? [],
      counter: counter.get(d.lot) ?? [],
      carried: carried.get(d.lot) ?? [],
    };
    const left = leftOf(into.length > 0 ? null : lot[unit], movementsUntil(rows, d.at), unit);
    return left === null ? d : { ...d, [unit]: Math.max(0, left) };
  };
  return { ...ends, departures: ends.departures.map(amountOf) };
}

const moved = ({ at, mg, pieces }: Omit<Moved, 'id'>): Moved => ({ id: at, at, mg, pieces });
