import { grouped } from '@bakehouse/kernel';
import { together } from './lots-drawn';
import type { DrawnLot, Flows } from './model';

/** As many as fit in a column; what is above it stands in one that says how many and how much. */
export const maxInColumn = 40;

/** The lots of each column, the widest and what is on hold before others, with all the rest of a column as one. No band and no width is lost. */
export function folded(all: Flows, most = maxInColumn): Flows {
  const as = new Map<string, string>();
  const lots = [...grouped(all.lots, (l) => l.layer).values()].flatMap((column): DrawnLot[] => {
    if (column.length <= most) return [...column];
    const ranked = [...column].sort((a, b) => Number(b.held) - Number(a.held) || b.weight - a.weight || (a.id < b.id ? -1 : 1));
    const rest = ranked.slice(most - 1);
    const [first] = rest;
    if (first === undefined) return [...column];
    const id = `more ${first.layer}`;
    for (const l of rest) as.set(l.id, id);
    const weight = rest.reduce((sum, l) => sum + l.weight, 0);
    const one = {
      id,
      layer: first.layer,
      name: '',
      code: null,
      at: null,
      lot: null,
      weight,
      held: rest.some((l) => l.held),
      folded: rest.length,
    };
    return [...ranked.slice(0, most - 1), one];
  });
  const name = (id: string): string => as.get(id) ?? id;
  const flows = together(all.flows.map((f) => ({ ...f, from: name(f.from), to: name(f.to) })));
  return { ...all, lots, flows };
}
