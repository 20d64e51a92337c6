import { openNow, openBetween, proposedLines, surelyGone, type ProposedLine, type Row } from '@bakehouse/records';
import { leftInLot, type Lookup } from '@bakehouse/views';

/** What was open for a make between two instants: at its own station, and for what is not open there, anywhere in the house. */
export function openFor({ snapshot }: Lookup, station: string | null, from: string, to: string): Row<'inUse'>[] {
  const all = openBetween(snapshot.inUse, snapshot.emptied, from, to);
  const own = all.filter((o) => o.station === station);
  const here = new Set(own.map((o) => o.material));
  return [...own, ...all.filter((o) => !here.has(o.material))];
}

/** Lots that were open when a make was begun and are not open now: they ran out or were put back in the store. */
export function closedSince({ snapshot }: Lookup, opened: readonly Row<'inUse'>[], to: string): ReadonlySet<string> {
  const still = new Set(openNow(snapshot.inUse, snapshot.emptied, to).map((o) => `${o.station} ${o.lot}`));
  return new Set(opened.filter((o) => !still.has(`${o.station} ${o.lot}`)).map((o) => o.lot));
}

/** The lines that a make takes, with the lots that were open while it was made: nobody types a lot. Those that it goes without give nothing. */
export function linesFor(
  lookup: Lookup,
  of: { version: Row<'formulaVersion'>; plannedMg: number | null; station: string | null; from: string; to: string },
  without: ReadonlySet<string> = new Set(),
  said?: (material: string, lot: string) => number | null | undefined,
): ProposedLine[] {
  const open = openFor(lookup, of.station, of.from, of.to).filter((o) => !without.has(o.lot));
  const closed = closedSince(lookup, open, of.to);
  const known = { ranOut: (lot: string) => closed.has(lot), ...(said ? { said } : {}) };
  return proposedLines(of.version.content.lines, of.plannedMg, open, (lot) => leftInLot(lookup, lot), known);
}

/** Lots of a material that could be opened: what came in or is made here, the newest first, without what is open, used up or surely gone. */
export function lotsToOpen({ snapshot, state, at }: Lookup, material: string): Row<'lot'>[] {
  const open = new Set(openNow(snapshot.inUse, snapshot.emptied, at).map((o) => o.lot));
  const usedUp = new Set(snapshot.emptied.filter((e) => !snapshot.inUse.some((u) => u.lot === e.lot && u.at > e.at)).map((e) => e.lot));
  const fits = (lot: Row<'lot'>): boolean =>
    lot.material === material && ['received', 'placeholder', 'made', 'old-dough', 'vessel'].includes(lot.type);
  return [...state.find('lot', 'material', material)]
    .filter((lot) => fits(lot) && !open.has(lot.id) && !usedUp.has(lot.id) && !surelyGone(state, lot.id, at))
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .slice(0, 12);
}
