import { bandPath } from './band-path';
import { inColumns } from './columns';
import { grouped } from '@bakehouse/kernel';
import type { Band, Box, Flow, Flows, Layout, Placed, Sizes } from './model';

export const barWidth = 8;
const thinnest = 1.5;

const widthOf = (weight: number, scale: number): number => Math.max(weight * scale, thinnest);

/** What each end needs of the table's line: as much as its bands are wide. */
export function needs({ ends, flows }: Pick<Flows, 'ends' | 'flows'>, scale: number): ReadonlyMap<string, number> {
  const sums = sumsOf(flows, scale).in;
  return new Map(ends.map((id) => [id, sums.get(id) ?? 0]));
}

/** Ends one under another where no table stands beside them. */
export function endsAlone(all: Pick<Flows, 'ends' | 'flows'>, { scale, slot, top }: Pick<Sizes, 'scale' | 'slot' | 'top'>): Box[] {
  const need = needs(all, scale);
  let next = top;
  return all.ends.map((id) => {
    const box = { top: next, height: Math.max(slot, (need.get(id) ?? 0) + 6) };
    next += box.height;
    return box;
  });
}

/** Where everything stands. Linear in lots and bands, but for putting them in order. Pure: the same flows give the same picture. */
export function layoutOf(all: Flows, boxes: readonly Box[], sizes: Sizes): Layout {
  const { scale, mirrored } = sizes;
  const last = all.lots.reduce((most, l) => Math.max(most, l.layer), 0);
  const width = sizes.start + (last + 1) * sizes.column;
  const ends = all.ends.map((id, i): Placed => ({ id, x: width, top: boxes[i]?.top ?? sizes.top, height: boxes[i]?.height ?? sizes.slot }));
  const sums = sumsOf(all.flows, scale);
  const heightOf = new Map(
    all.lots.map((l) => [l.id, Math.max(sums.in.get(l.id) ?? 0, sums.out.get(l.id) ?? 0, l.layer === 0 ? l.weight * scale : 0, 4)]),
  );
  const lots = inColumns(all, ends, heightOf, sizes);
  const at = new Map([...lots, ...ends].map((p) => [p.id, p]));
  const out = stacked(all.flows, 'from', 'to', at, scale);
  const into = stacked(all.flows, 'to', 'from', at, scale);
  const bands = all.flows.flatMap((flow, i): Band[] => {
    const [a, b, y0, y1] = [at.get(flow.from), at.get(flow.to), out.get(flow), into.get(flow)];
    if (a === undefined || b === undefined || y0 === undefined || y1 === undefined) return [];
    const thick = widthOf(flow.weight, scale);
    const mirror = (x: number): number => (mirrored ? width - x : x);
    const from = [mirror(a.x + barWidth), y0] as const;
    const to = [mirror(b.x), y1] as const;
    const bend = Math.min(sizes.column, b.x - a.x) - barWidth;
    const path = bandPath(from, to, thick, a.x <= sizes.start ? bend : b.x - a.x - barWidth);
    return [{ id: `band ${i}`, flow, width: thick, from, to, path }];
  });
  const bottom = [...lots, ...ends].reduce((most, p) => Math.max(most, p.top + p.height), sizes.top);
  const turned = (p: Placed): Placed => (mirrored ? { ...p, x: width - p.x - (at.has(p.id) && p.x < width ? barWidth : 0) } : p);
  return { width, height: bottom, lots: lots.map(turned), ends: ends.map(turned), bands };
}

function sumsOf(flows: readonly Flow[], scale: number) {
  const sums = { in: new Map<string, number>(), out: new Map<string, number>() };
  for (const f of flows) {
    const thick = widthOf(f.weight, scale);
    sums.out.set(f.from, (sums.out.get(f.from) ?? 0) + thick);
    sums.in.set(f.to, (sums.in.get(f.to) ?? 0) + thick);
  }
  return sums;
}

/** At one side of each lot and end: its bands one under another, in the order of where they lead, so that few cross. At an end they stand in its middle. */
function stacked(
  flows: readonly Flow[],
  side: 'from' | 'to',
  other: 'from' | 'to',
  at: ReadonlyMap<string, Placed>,
  scale: number,
): ReadonlyMap<Flow, number> {
  const middle = (p: Placed | undefined): number => (p === undefined ? 0 : p.top + p.height / 2);
  const found = new Map<Flow, number>();
  for (const [id, list] of grouped(flows, (f) => f[side])) {
    const place = at.get(id);
    if (place === undefined) continue;
    const sum = list.reduce((n, f) => n + widthOf(f.weight, scale), 0);
    let next = side === 'to' ? place.top + (place.height - sum) / 2 : place.top;
    for (const f of [...list].sort((a, b) => middle(at.get(a[other])) - middle(at.get(b[other])))) {
      const thick = widthOf(f.weight, scale);
      found.set(f, next + thick / 2);
      next += thick;
    }
  }
  return found;
}
