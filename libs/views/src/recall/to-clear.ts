import type { RecallView } from '@bakehouse/contracts';
import { shelvesText } from '../standing/shelves-text.js';

/** What stands in front of customers in the house's own shops and on its counters: it is taken off before anybody is rung. */
export interface ToClear {
  readonly lot: string;
  readonly name: string;
  readonly code: string | null;
  /** Each place with how many are there. */
  readonly places: readonly string[];
}

/** What of a case has to come off the house's own shelves: all but what was freed in it. In a practice each place says so first. */
export function toClear({ trace, practice, decisions }: Pick<RecallView, 'trace' | 'practice' | 'decisions'>): ToClear[] {
  const freed = new Set(decisions.filter((d) => d.decision === 'freed').map((d) => d.lot));
  return trace.onHand.flatMap(({ lot, name, code, shelves }) => {
    const places = shelvesText(shelves, practice ? 'practice' : true);
    return places.length === 0 || freed.has(lot) ? [] : [{ lot, name, code, places }];
  });
}
