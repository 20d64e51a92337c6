import { inOrder, sumOfKnown, type How } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';
import { openAt } from '../stock/open-at.js';

export interface ProposedLine {
  readonly material: string;
  readonly lot: string | null;
  readonly mg: number | null;
  readonly how: How;
}

/** The lots that were open at a station at any time between two instants, in the order they were opened. */
export function openBetween(opened: readonly Row<'inUse'>[], emptied: readonly Row<'emptied'>[], from: string, to: string): Row<'inUse'>[] {
  return inOrder([...openAt(opened, emptied, from), ...opened.filter((o) => o.at > from && o.at <= to)]);
}

/** What is known of the lots beside what the records say was left. */
export interface KnownOfLots {
  /** Whether a lot was emptied, or another put in its place, while the make was made. */
  readonly ranOut?: (lot: string) => boolean;
  /** What somebody said was taken of a lot; null where nobody knows, undefined where nothing was said. */
  readonly said?: (material: string, lot: string) => number | null | undefined;
}

/** How much of each material a make takes by its formula, scaled to what was planned. */
export function neededOf(lines: readonly { material: string; mg: number }[], plannedMg: number | null): { material: string; mg: number }[] {
  const whole = lines.reduce((sum, l) => sum + l.mg, 0);
  return lines.map(({ material, mg }) => ({ material, mg: plannedMg === null ? mg : Math.round((mg * plannedMg) / whole) }));
}

/**
 * What a make takes without anybody typing a lot: each formula line, scaled, from the lots open at its station while it was made. Where the sack changed
 * the first lot gives what the records say was left of it, as a guess, and the last the rest; where that is not known, nobody guesses amounts. It is not known
 * either where a lot ran out of which the records say that there was enough. What somebody said of a lot stands, and the others give what is missing.
 */
export function proposedLines(
  lines: readonly { material: string; mg: number }[],
  plannedMg: number | null,
  open: readonly Row<'inUse'>[],
  left: (lot: string) => number | null,
  known: KnownOfLots = {},
): ProposedLine[] {
  return neededOf(lines, plannedMg).flatMap(({ material, mg: needed }) => {
    const lots = [...new Set(open.filter((o) => o.material === material).map((o) => o.lot))];
    return lots.length === 0
      ? [{ material, lot: null, mg: needed, how: 'by-recipe' as const }]
      : overLots(material, lots, needed, left, known);
  });
}

function overLots(
  material: string,
  lots: readonly string[],
  needed: number,
  left: (lot: string) => number | null,
  { ranOut, said }: KnownOfLots,
): ProposedLine[] {
  const saidOf = new Map(lots.map((lot) => [lot, said?.(material, lot)]));
  const open = lots.filter((lot) => saidOf.get(lot) === undefined);
  const taken = sumOfKnown(lots.map((lot) => saidOf.get(lot) ?? (saidOf.get(lot) === null ? null : 0)));
  let rest = taken === null ? null : Math.max(0, needed - taken);
  return lots
    .map((lot): ProposedLine => {
      const own = saidOf.get(lot);
      if (own !== undefined) return { material, lot, mg: own, how: own === null ? 'estimated' : 'weighed' };
      const last = lot === open.at(-1);
      const there = last ? rest : left(lot);
      const enough = !last && rest !== null && rest > 0 && there !== null && there >= rest;
      const mg = rest === null || there === null || (enough && ranOut?.(lot) === true) ? null : Math.max(0, Math.min(there, rest));
      rest = rest === null || mg === null ? null : rest - mg;
      return { material, lot, mg, how: last && mg !== null ? 'by-recipe' : 'estimated' };
    })
    .filter((line) => line.mg !== 0);
}
