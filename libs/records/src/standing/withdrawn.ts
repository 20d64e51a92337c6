import { derivedId } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';

/** What has to be looked for, as far as can be named now, before `withdrawnAt` can be asked of a lot. */
export function withdrawnNeeds(state: State, lot: string): Need[] {
  const row: Need = { in: 'lot', id: lot };
  if (!state.knows(row) || !isWithdrawn(state, lot)) return [row];
  return [
    row,
    { in: 'flow', by: 'source', value: lot },
    { in: 'departure', by: 'lot', value: lot },
    { in: 'inUse', by: 'lot', value: lot },
    { in: 'counted', by: 'lot', value: lot },
    { in: 'onCounter', by: 'lot', value: lot },
  ];
}

/** Whether the record that a lot came with was withdrawn or does not tell of it any more. */
export const isWithdrawn = (state: State, lot: string): boolean => state.get('lot', lot)?.type === 'withdrawn';

/** Whether anything was done with a lot: used, opened, sent out, put on a counter or counted. Needs `withdrawnNeeds`. */
const wasThere = (state: State, lot: string): boolean =>
  state.find('flow', 'source', lot).length > 0 ||
  state.find('departure', 'lot', lot).length > 0 ||
  state.find('inUse', 'lot', lot).length > 0 ||
  state.find('counted', 'lot', lot).length > 0 ||
  state.find('onCounter', 'lot', lot).length > 0;

/** A withdrawn lot with which nothing was done: there never was one. A later record may say otherwise. */
export const neverWas = (state: State, lot: string): boolean => isWithdrawn(state, lot) && !wasThere(state, lot);

/**
 * That a lot was used, opened, sent out or counted although the record that it came with was withdrawn: nobody can say what that was. Whichever of the two was
 * recorded first. Null where there is nothing of the kind; otherwise what a decision about it names.
 */
export const withdrawnAt = (state: State, lot: string): string | null =>
  isWithdrawn(state, lot) && wasThere(state, lot) ? derivedId(lot, 'withdrawn') : null;
