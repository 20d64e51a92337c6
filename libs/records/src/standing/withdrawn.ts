import { derivedId } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';

/** What has to be looked for, as far as can be named now, before `withdrawnAt` can be asked of a lot. */
export function withdrawnNeeds(state: State, lot: string): Need[] {
  const row: Need = { in: 'lot', id: lot };
  if (!state.knows(row) || !isWithdrawn(state, lot)) return [row];
  return [row, ...doneWith(lot)];
}

/** Where it would show that anything was done with a lot: used, sent out, opened, counted or put on a counter. */
export const doneWith = (lot: string) =>
  [
    { in: 'flow', by: 'source', value: lot },
    { in: 'departure', by: 'lot', value: lot },
    { in: 'inUse', by: 'lot', value: lot },
    { in: 'counted', by: 'lot', value: lot },
    { in: 'onCounter', by: 'lot', value: lot },
  ] as const satisfies Need[];

/** Whether the record that a lot came with was withdrawn or does not tell of it any more. */
export const isWithdrawn = (state: State, lot: string): boolean => state.get('lot', lot)?.type === 'withdrawn';

/** Whether anything was done with a lot. Needs `withdrawnNeeds`. */
const wasThere = (state: State, lot: string): boolean => doneWith(lot).some((need) => state.find(need.in, need.by, need.value).length > 0);

/** A withdrawn lot with which nothing was done: there never was one. A later record may say otherwise. */
export const neverWas = (state: State, lot: string): boolean => isWithdrawn(state, lot) && !wasThere(state, lot);

/**
 * That a lot was used, opened, sent out or counted although the record that it came with was withdrawn: nobody can say what that was. Whichever of the two was
 * recorded first. Null where there is nothing of the kind; otherwise what a decision about it names.
 */
export const withdrawnAt = (state: State, lot: string): string | null =>
  isWithdrawn(state, lot) && wasThere(state, lot) ? derivedId(lot, 'withdrawn') : null;
