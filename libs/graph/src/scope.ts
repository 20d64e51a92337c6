import type { Hazard } from '@bakehouse/records';
import type { Reached } from './forward.js';

/**
 * Stands beside the heat steps of a case about an organism: vegetative cells may die in an oven, spores and toxins need not
 * (B. cereus among others), and whatever goes on afterwards was not in it. From memory; no text is quoted.
 */
export const heatNote =
  'The heat step is shown with what was read there. It clears no lot: spores and toxins may survive it, and what was put on afterwards ' +
  'was never in the oven. A competent person judges it.';

export interface Scope<R extends Reached> {
  readonly inScope: readonly R[];
  readonly leftOut: readonly R[];
  readonly rule: string;
}

/** Of a trace that nobody has named a hazard for: the widest of all, so that naming one never adds anybody. */
const anyHazard =
  'No hazard is chosen, so this is the widest scope: everything reached is in, with what the same bowls and scales made before they were cleaned as possible. ' +
  'Choose the hazard: a splinter or a chemical does not reach those.';

/**
 * Which reached lots are in scope. Bodies, organisms and allergens do not dilute: everything reached is in. Only an evenly spread
 * chemical with a stated action level (parts per 10¹² of the suspect) may leave out what is surely below it, and what it leaves out is listed.
 */
export function scopeOf<R extends Reached>(reached: Iterable<R>, hazard: Hazard | null, actionLevelPpt: bigint | null): Scope<R> {
  const all = [...reached].sort((a, b) => a.steps - b.steps || (a.lot < b.lot ? -1 : 1));
  if (hazard !== 'chemical' || actionLevelPpt === null) {
    return {
      inScope: all,
      leftOut: [],
      rule:
        hazard === 'chemical'
          ? 'No action level is stated: everything reached is in scope.'
          : hazard === null
            ? anyHazard
            : 'This hazard does not dilute: everything reached is in scope, however small its share.',
    };
  }
  const below = (r: R): boolean => r.steps > 0 && r.max !== null && r.max < actionLevelPpt;
  return {
    inScope: all.filter((r) => !below(r)),
    leftOut: all.filter(below),
    rule: 'An evenly spread chemical: lots that hold surely less than the stated action level are left out, and listed.',
  };
}
