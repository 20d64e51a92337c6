import type { TraceFlow } from './graph.js';

/** Lots of which each goes into every other, by however many links: more than one, or one that went into itself, is a circle. */
export interface Component {
  readonly members: readonly string[];
  readonly circle: boolean;
}
type Next = ReadonlyMap<string, readonly TraceFlow[]>;

interface Visit {
  readonly lot: string;
  readonly links: readonly TraceFlow[];
  next: number;
}

/** Circles and single lots, each after all that go into it (Tarjan 1972, without recursion: a starter’s chain is thousands of lots long). Linear. */
export function inOrder(lots: readonly string[], next: Next): Component[] {
  const [number, low, done] = [new Map<string, number>(), new Map<string, number>(), new Set<string>()];
  const [open, found]: [string[], Component[]] = [[], []];
  const lowOf = (lot: string): number => low.get(lot) ?? Infinity;
  const begin = (lot: string): Visit => {
    number.set(lot, number.size);
    low.set(lot, number.size - 1);
    open.push(lot);
    return { lot, links: next.get(lot) ?? [], next: 0 };
  };
  const end = (lot: string): void => {
    if (lowOf(lot) !== number.get(lot)) return;
    const members = open.splice(open.lastIndexOf(lot));
    for (const member of members) done.add(member);
    found.push({ members, circle: members.length > 1 || (next.get(lot) ?? []).some((f) => f.target === lot) });
  };
  for (const lot of lots) {
    const path = number.has(lot) ? [] : [begin(lot)];
    for (let visit = path.at(-1); visit !== undefined; visit = path.at(-1)) {
      const target = visit.links[visit.next]?.target;
      visit.next += 1;
      if (target === undefined) {
        end(visit.lot);
        path.pop();
        const before = path.at(-1)?.lot;
        if (before !== undefined) low.set(before, Math.min(lowOf(before), lowOf(visit.lot)));
      } else if (!number.has(target)) path.push(begin(target));
      else if (!done.has(target)) low.set(visit.lot, Math.min(lowOf(visit.lot), number.get(target) ?? Infinity));
    }
  }
  return found.reverse();
}
