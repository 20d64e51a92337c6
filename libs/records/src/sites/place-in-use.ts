import { decided, id, name, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Need, State } from '../base/state.js';
import { placeType } from '../rows/sites.js';

const parentOf = (state: State, place: string): string | null => state.get('place', place)?.within ?? null;

/**
 * Equipment, a station, a store or a vessel that this site works with from now on. It may stand within another, three deep at most
 * (a tub in a fridge in a store): that also keeps a correction from putting a place inside itself.
 */
export const placeInUse = defineKind({
  name: 'place-in-use',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.site',
  phrase: 'Equipment or a place was taken into use',
  official: 'Equipment or place taken into use',
  payload: z.strictObject({ name, type: placeType, within: id.nullable() }),
  outcome: z.strictObject({}),
  examples: [{ name: 'Deck oven, middle deck', type: 'deck', within: '0190a6d0-7b3c-7000-8000-000000000121' }],
  needs: (p) =>
    p.within === null
      ? []
      : [
          { in: 'place', id: p.within },
          { in: 'placeOut', by: 'place', value: p.within },
        ],
  then(p, state): Need[] {
    const above = p.within === null ? null : parentOf(state, p.within);
    return above === null ? [] : [{ in: 'place', id: above }];
  },
  decide({ payload: p, root, at }, state) {
    if (p.within === null) return decided({});
    const outOfUse = state.find('placeOut', 'place', p.within).some((out) => out.at <= at);
    if (p.within === root || !state.get('place', p.within) || outOfUse)
      return refuse('unknown-place', 'payload.within', 'another place in use at this site');
    const above = parentOf(state, p.within);
    const tooDeep = above !== null && (above === root || parentOf(state, above) !== null);
    return tooDeep
      ? refuse('unacceptable-value', 'payload.within', 'a place that is not itself inside a place within another')
      : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'place', id: root, row: { name: p.name, type: p.type, within: p.within, since: at } }],
});
