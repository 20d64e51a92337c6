import type { Row } from '../base/state.js';
import { begunBy, inForce } from '../control/in-force.js';

type Specification = Row<'specification'>;
type Lot = Pick<Row<'lot'>, 'material' | 'specification' | 'supplier' | 'at'>;

/**
 * Every specification that may speak of a received lot, the oldest first: that of its receipt, what was in force when it came, and what was accepted
 * since, because a later version tells what the supplier knows now of goods that came before it. A supplier's own come before those of no supplier.
 * A lot whose supplier nobody knows may be anybody's.
 */
export function specificationsFor(lot: Lot, all: readonly Specification[], now: string): readonly Specification[] {
  const its = begunBy(
    all.filter((s) => s.material === lot.material),
    now,
  );
  const then = new Set(begunBy(its, lot.at));
  const own = lot.supplier === null ? its : its.filter((s) => s.supplier === lot.supplier);
  const general = its.filter((s) => s.supplier === null);
  const theirs = own.some((s) => then.has(s)) ? own : general.length + own.length > 0 ? [...general, ...own] : its;
  const found = new Set(its.filter((s) => s.id === lot.specification || (theirs.includes(s) && !then.has(s))));
  for (const supplier of new Set(theirs.map((s) => s.supplier))) {
    const before = inForce(
      theirs.filter((s) => s.supplier === supplier),
      lot.at,
    );
    if (before) found.add(before);
  }
  return its.filter((s) => found.has(s));
}
