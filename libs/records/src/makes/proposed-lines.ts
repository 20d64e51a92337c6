import { inOrder, type How } from '@bakehouse/kernel';
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

/**
 * What a make takes without anybody typing a lot: each formula line, scaled, from the lots open at its station while it was made. Where the sack changed
 * the first lot gives what the records say was left of it, as a guess, and the last the rest; where that is not known, nobody guesses amounts.
 */
export function proposedLines(
  lines: readonly { material: string; mg: number }[],
  plannedMg: number | null,
  open: readonly Row<'inUse'>[],
  left: (lot: string) => number | null,
): ProposedLine[] {
  const whole = lines.reduce((sum, l) => sum + l.mg, 0);
  return lines.flatMap(({ material, mg }) => {
    const needed = plannedMg === null ? mg : Math.round((mg * plannedMg) / whole);
    const lots = [...new Set(open.filter((o) => o.material === material).map((o) => o.lot))];
    return lots.length === 0 ? [{ material, lot: null, mg: needed, how: 'by-recipe' as const }] : overLots(material, lots, needed, left);
  });
}

function overLots(material: string, lots: readonly string[], needed: number, left: (lot: string) => number | null): ProposedLine[] {
  let rest: number | null = needed;
  return lots
    .map((lot, i): ProposedLine => {
      const last = i === lots.length - 1;
      const there = last ? rest : left(lot);
      const mg = rest === null || there === null ? null : Math.max(0, Math.min(there, rest));
      rest = rest === null || mg === null ? null : rest - mg;
      return { material, lot, mg, how: last && mg !== null ? 'by-recipe' : 'estimated' };
    })
    .filter((line) => line.mg !== 0);
}
