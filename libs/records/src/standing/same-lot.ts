import { latest } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';

/** What has to be looked for, as far as can be named now, before `alsoThisLot` can be asked. */
export function alsoThisNeeds(state: State, lot: string): Need[] {
  const seen = new Set([lot]);
  const needs: Need[] = [];
  for (const one of seen) {
    const named: Need = { in: 'lotIdentified', by: 'same', value: one };
    needs.push(named);
    for (const i of state.knows(named) ? state.find('lotIdentified', 'same', one) : []) {
      seen.add(i.lot);
      needs.push({ in: 'lotIdentified', by: 'lot', value: i.lot });
    }
  }
  return needs;
}

/**
 * What turned out to be this lot, whichever was recorded first: what came and went of that came and went of this. What was named more than once is what it was
 * named last.
 */
export function alsoThisLot(state: State, lot: string): string[] {
  const seen = new Set([lot]);
  for (const one of seen)
    for (const i of state.find('lotIdentified', 'same', one))
      if (latest(state.find('lotIdentified', 'lot', i.lot).filter((n) => n.same !== null))?.same === one) seen.add(i.lot);
  seen.delete(lot);
  return [...seen];
}
