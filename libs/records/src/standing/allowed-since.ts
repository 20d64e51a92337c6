import { usesIt, wayOf, withinAccepted } from './accepted-part.js';
import type { LeavingNow } from './leaving-now.js';
import { movementNeeds } from './lot-rows.js';
import { lotNeeds, troubleNeeds } from './lot-trouble.js';
import { concernsOf } from './standings.js';
import type { Need, Row, State } from '../base/state.js';

/** A deviation as far as it is asked whether it is answered. */
export type HeldUse = Pick<Row<'deviation'>, 'id' | 'type' | 'subject' | 'lot' | 'at'>;

/** Whether a deviation tells that food on hold left or was used: only what was known then decided that. */
export const tellsOfUse = ({ type }: Pick<HeldUse, 'type'>): boolean => type === 'held-lot-used';

const lotOf = ({ lot, subject }: HeldUse): string => lot ?? subject;

/** What has to be looked for before `allowedSince` can be asked: ask again until it names nothing new. */
export const allowedNeeds = (state: State, deviations: readonly HeldUse[]): Need[] => {
  const lots = [...new Set(deviations.filter(tellsOfUse).map(lotOf))];
  return [
    ...lots.flatMap((lot): Need[] => [...lotNeeds(lot), ...movementNeeds(state, lot), { in: 'flow', by: 'source', value: lot }]),
    ...troubleNeeds(state, lots),
  ];
};

/** What a deviation tells of: what left its lot then, or went into its subject. */
function toldOf(state: State, d: HeldUse): readonly LeavingNow[] {
  if (d.lot === null)
    return state
      .find('departure', 'lot', d.subject)
      .flatMap((one) =>
        one.at === d.at && usesIt(state, one)
          ? [{ root: one.trip, site: one.site, way: wayOf(one.channel), pieces: one.pieces, mg: one.mg }]
          : [],
      );
  return state
    .find('flow', 'source', d.lot)
    .flatMap(({ id, target, at, pieces, mg }) =>
      at === d.at && target === d.subject ? [{ root: id, site: null, way: 'away' as const, pieces, mg, flows: new Set([id]) }] : [],
    );
}

/**
 * Whether by all that is on record now the food that a deviation tells of could be used or leave then: an acceptance that arrived later, or a hold that turned out to have
 * been lifted before, answers it. It is the same whichever arrived first, but for the deviation, which stays until somebody closes it. Needs `allowedNeeds`.
 */
export function allowedSince(state: State, d: HeldUse): boolean {
  if (!tellsOfUse(d)) return false;
  const [lot, told] = [lotOf(d), toldOf(state, d)];
  if (told.length === 0) return false;
  const against = concernsOf(state, [lot], d.at, d.at, true).get(lot) ?? [];
  return told.every((of) => against.every((r) => r.concern.id === d.id || withinAccepted(state, lot, r.concern.id, of, d.at)));
}
