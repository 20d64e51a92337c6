import { grouped } from '@bakehouse/kernel';
import type { DrawnLot, Flows, Placed, Sizes } from './model';

/**
 * The lots of each column, from the left: in the order of what they came of, then of time, so that bands between two columns do not cross; each column as a
 * whole beside where its bands end.
 */
export function inColumns(
  { lots, flows }: Pick<Flows, 'lots' | 'flows'>,
  ends: readonly Placed[],
  heightOf: ReadonlyMap<string, number>,
  { start, column, slot, top }: Pick<Sizes, 'start' | 'column' | 'slot' | 'top'>,
): Placed[] {
  const ordered = orderOf(lots, flows);
  const height = (id: string): number => heightOf.get(id) ?? 0;
  const room = (id: string): number => Math.max(slot, height(id) + gap);
  const bottom = ends.reduce((most, e) => Math.max(most, e.top + e.height), top);
  const tallest = Math.max(bottom - top, ...ordered.map((all) => all.reduce((n, l) => n + room(l.id), 0)));
  const middle = new Map(ends.map((e) => [e.id, e.top + e.height / 2]));
  const leads = grouped(flows, (f) => f.from);
  const placed: Placed[] = [];
  for (const all of [...ordered].reverse()) {
    const whole = all.reduce((n, l) => n + room(l.id), 0);
    const wanted = meanOf(
      all.flatMap((l) => (leads.get(l.id) ?? []).map((f) => [middle.get(f.to) ?? top, Math.max(f.weight, 1)] as const)),
    );
    const spare = Math.max(0, Math.min(tallest * 0.8 - whole, all.length * slot));
    const between = all.length > 1 ? spare / (all.length - 1) : 0;
    const long = whole + between * (all.length - 1);
    let next = Math.min(Math.max((wanted ?? top) - long / 2, top), Math.max(top, top + tallest - long));
    for (const l of all) {
      const own = { id: l.id, x: start + l.layer * column, top: next + (room(l.id) - height(l.id)) / 2, height: height(l.id) };
      placed.push(own);
      middle.set(l.id, own.top + own.height / 2);
      next += room(l.id) + between;
    }
  }
  return placed;
}

const gap = 8;

function meanOf(all: readonly (readonly [at: number, weight: number])[]): number | undefined {
  const sum = all.reduce((n, [, weight]) => n + weight, 0);
  return sum === 0 ? undefined : all.reduce((n, [at, weight]) => n + at * weight, 0) / sum;
}

/** Each column in order; what is folded stands last. */
function orderOf(lots: readonly DrawnLot[], flows: Flows['flows']): DrawnLot[][] {
  const from = new Map(flows.map((f) => [f.to, f.from]));
  const place = new Map<string, number>();
  const layers = [...grouped(lots, (l) => l.layer)].sort(([a], [b]) => a - b);
  return layers.map(([, all]) => {
    const before = (l: DrawnLot): number => place.get(from.get(l.id) ?? '') ?? 0;
    const time = (l: DrawnLot): string => l.at ?? '';
    const inOrder = [...all].sort(
      (a, b) =>
        Number(a.folded > 0) - Number(b.folded > 0) ||
        before(a) - before(b) ||
        (time(a) < time(b) ? -1 : time(a) > time(b) ? 1 : a.id < b.id ? -1 : 1),
    );
    inOrder.forEach((l, i) => place.set(l.id, i));
    return inOrder;
  });
}
