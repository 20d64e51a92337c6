import { countedInPieces, lastKnown, movementsOf, snapshotOf, workingSetOf, type CarriedOver, type Snapshot } from '@bakehouse/records';
import { leftRangeIn, type LeftRange } from '@bakehouse/views';

export interface LeftInLot extends LeftRange {
  /** When all of it was last counted, or the rest of it destroyed. */
  readonly countedAt: string | null;
}

/** Lots whose amount somebody at a table asks for: what is weighed, and what bread and pieces were made of is told by their own rows. */
export const weighedLots = ({ lot = [] }: Partial<Snapshot>): string[] =>
  lot.filter((l) => l.type !== 'run' && l.type !== 'batch' && l.type !== 'withdrawn' && !countedInPieces(l)).map((l) => l.id);

/**
 * What a device has to start from so that these rows give the same as all records do: of those lots alone where they do not. A record that it has besides is added by itself, and
 * a count begins anew.
 */
export function carriedOver(rows: Partial<Snapshot>, left: ReadonlyMap<string, LeftInLot>, at: string): CarriedOver[] {
  const held = snapshotOf(rows);
  const state = workingSetOf(held);
  return [...left].flatMap(([lot, all]) => {
    const here = leftRangeIn({ state, at }, lot);
    if (here.leftMg === all.leftMg && here.perhapsMg === all.perhapsMg) return [];
    const since = latestOf(all.countedAt, lastKnown(movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), 'mg')?.at ?? null);
    state.carryOver([{ id: lot, at: since, mg: 0, perhapsMg: 0 }]); // as if nothing had been there then: what these rows come to since
    const moved = leftRangeIn({ state, at }, lot);
    return [{ id: lot, at: since, mg: less(all.leftMg, moved.leftMg), perhapsMg: less(all.perhapsMg, moved.perhapsMg) }];
  });
}

const less = (all: number | null, some: number | null): number | null => (all === null || some === null ? null : all - some);
const latestOf = (a: string | null, b: string | null): string | null => (a === null ? b : b === null || a > b ? a : b);
