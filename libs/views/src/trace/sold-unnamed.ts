import type { TraceView } from '@bakehouse/contracts';
import type { TraceGraph } from '@bakehouse/graph';
import { byText, earliestOf, grouped, inOrder, sumOfKnown } from '@bakehouse/kernel';
import { counterWindows, soldOver } from '@bakehouse/records';
import { departuresOnce, type DepartureOfLot } from '../recall/departures-once.js';
import { departedFrom, toOwnShop } from './account-rows.js';
import type { CounterRow, DepartureRow } from './rows.js';

type Unnamed = TraceView['counter'][number];
type Departed = DepartureRow & DepartureOfLot;

/** The ways out by which food comes to somebody; where nobody is named, only a notice with the times reaches them. Samples and waste reach nobody. */
const toSomebody: readonly string[] = ['counter', 'stall', 'eaten-in', 'staff', 'round', 'dispatch', 'donation', 'feed'];

interface Sold {
  readonly counter: readonly CounterRow[];
  readonly departures: readonly Departed[];
  /** Whether what left a lot at a time surely holds what is looked for. */
  readonly holds: (lot: string, at: string) => boolean;
}

/**
 * What went to people whom nobody can name, each piece in one line: what stood on a counter from when until when, with what was sold there, by a record of the
 * sale or by what was missing when it came off; and each time that some left in another way, or by the van, and nobody was named.
 */
export function soldUnnamed(sold: Sold, graph: TraceGraph, siteName: (book: string) => string): Unnamed[] {
  const nobody = sold.departures.filter((d) => d.customer === null && toSomebody.includes(d.channel) && !toOwnShop(d));
  const ofLot = grouped(sold.departures, (d) => d.lot);
  const onCounter = [...grouped(sold.counter, (c) => `${c.lot} ${c.book}`).values()].flatMap((rows) => windowsOf(rows, ofLot));
  const counted = new Set(onCounter.flatMap((w) => w.sales.map((s) => s.id)));
  const lines = [
    ...onCounter.map(({ lot, book, from, earliest, until, on, sales, missing }): Unnamed => {
      const gone = sumOfKnown([...sales.map((s) => s.pieces), ...missing.map((m) => m.pieces)]);
      return {
        ...calledIn(graph, [lot]),
        way: 'counter',
        site: siteName(book),
        from,
        until,
        pieces: until === null ? on : gone,
        sold: gone,
        certain: sold.holds(lot, earliest),
      };
    }),
    ...departuresOnce(nobody.filter((d) => !counted.has(d.id))).map(({ of, lots, certain }): Unnamed => ({
      ...calledIn(
        graph,
        lots.map((d) => d.lot),
      ),
      way: of.channel,
      site: siteName(of.book),
      from: of.at,
      until: of.until ?? of.at,
      pieces: of.pieces,
      sold: of.pieces,
      certain,
    })),
  ];
  return lines.sort((a, b) => byText(a.name, b.name) || byText(a.from, b.from));
}

function calledIn({ lots }: TraceGraph, ids: readonly string[]): Pick<Unnamed, 'lots' | 'name' | 'code'> {
  const of = ids.map((id) => lots.get(id));
  const codes = of.some((l) => l !== undefined && l.code !== null) ? of.map((l) => l?.code ?? 'no code') : [];
  return {
    lots: [...ids],
    name: [...new Set(of.map((l) => l?.name ?? ''))].join(' or '),
    code: codes.length === 0 ? null : [...new Set(codes)].join(' or '),
  };
}

/** The times that one lot stood on the counter of one site, each with the sales that are of it. */
function windowsOf(rows: readonly CounterRow[], departures: ReadonlyMap<string, readonly Departed[]>) {
  const [first] = rows;
  if (!first) return [];
  const { lot, book } = first;
  const ofLot = departures.get(lot) ?? [];
  const missing = soldOver(rows, ofLot.map(departedFrom));
  const sales = inOrder(ofLot.filter((d) => d.customer === null && d.channel === 'counter' && d.anyOf === null && d.book === book));
  return counterWindows(rows).map(({ from, on, off }, i, all) => {
    const next = all[i + 1]?.from ?? null;
    const before = sales.filter((s) => s.at >= from && (off === null || s.at <= off.at) && (next === null || s.at < next));
    const after = off === null ? [] : sales.filter((s) => s.at > off.at && (next === null || s.at < next));
    const left = off === null || on === null || off.pieces === null ? null : on - off.pieces;
    return {
      ...{ lot, book, from, on, until: off?.at ?? null },
      // When it may have been put there first.
      earliest: rows.flatMap((r) => (r.at === from ? earliestOf(r) : [])).sort()[0] ?? from,
      sales: [...before, ...ofTheMissing(after, left === null ? null : before.reduce((n, s) => n - (s.pieces ?? n), left))],
      missing: missing.filter((m) => m.id === off?.id),
    };
  });
}

/** Sales that were written down once it had come off: of what was missing then, as far as that goes. What is more was sold later. */
function ofTheMissing(after: readonly Departed[], missing: number | null): Departed[] {
  let left = missing;
  return after.filter((s) => {
    if (left === null) return true;
    const of = left > 0 && (s.pieces === null || s.pieces <= left);
    if (of) left -= s.pieces ?? left;
    return of;
  });
}

/** What was sold over a counter by what was missing when it came off, where no sale is recorded: it has left the house as well. */
export function soldByDifference({ counter, departures, holds }: Sold): TraceView['ends'] {
  const left = grouped(departures, (d) => d.lot);
  return [...grouped(counter, (c) => c.lot)].flatMap(([lot, rows]) => {
    const certain = rows.every((row) => holds(lot, earliestOf(row)));
    return soldOver(rows, (left.get(lot) ?? []).map(departedFrom)).map(({ id, at, pieces }) => ({
      ...{ lots: [lot], channel: 'counter', customer: null, customerName: null, pieces, mg: null, certain },
      ...{ unattended: false, decided: null, stays: false, at, until: null, missing: id },
    }));
  });
}
