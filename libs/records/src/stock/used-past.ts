import { derivedId, inOrder, instant } from '@bakehouse/kernel';
import type * as z from 'zod';
import type { Change, Need, State } from '../base/state.js';
import { alsoThisLot, alsoThisNeeds } from '../standing/same-lot.js';
import { targetNeeds, use, useDeviation, usedIn, useNeeds } from './used-in.js';

/** Something that a lot went into, and when. */
export const timedUse = use.extend({ at: instant });

/** What has to be looked for, as far as can be named now, before `usedAfter` can be asked of a lot. */
export function usedAsNeeds(state: State, lot: string): Need[] {
  const named = alsoThisNeeds(state, lot);
  const lots = named.every((need) => state.knows(need)) ? [lot, ...alsoThisLot(state, lot)] : [];
  return [
    ...named,
    ...lots.flatMap(useNeeds),
    ...lots.flatMap((one) => (useNeeds(one).every((need) => state.knows(need)) ? targetNeeds(state, one) : [])),
  ];
}

/** What a lot, also where it had another name then, went into directly after a day. */
export function usedAfter(state: State, lot: string, useBy: string | null): z.infer<typeof timedUse>[] {
  if (useBy === null) return [];
  return [lot, ...alsoThisLot(state, lot)].flatMap((one) =>
    inOrder(state.find('flow', 'source', one))
      .filter((f) => f.day > useBy)
      .flatMap((f) => usedIn(state, one, (other) => other.id === f.id).map((u) => ({ ...u, at: f.at }))),
  );
}

/** A deviation on each of these, once: it was put in past its use-by date, as came out later. */
export function usedPastDeviations(
  uses: readonly z.infer<typeof timedUse>[],
  { root, lot, name }: { readonly root: string; readonly lot: string; readonly name: string },
): Change[] {
  return [...new Map(uses.map((u) => [u.subject, u])).values()].map(({ subjectType, subject, at }) =>
    useDeviation(derivedId(root, `used past ${lot} ${subject}`), {
      subjectType,
      subject,
      type: 'expired-lot-used',
      lot,
      name,
      at,
      doneBy: null,
    }),
  );
}
