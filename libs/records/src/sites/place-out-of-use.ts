import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** Equipment or a place is not worked with any more. What happened there stays; coming back, it is put in use anew. */
export const placeOutOfUse = defineKind({
  name: 'place-out-of-use',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.site',
  phrase: 'Equipment or a place was taken out of use',
  official: 'Equipment or place taken out of use',
  words: ['note'],
  payload: z.strictObject({ place: id }),
  outcome: z.strictObject({}),
  examples: [{ place: '0190a6d0-7b3c-7000-8000-000000000121' }],
  needs: (p) => [
    { in: 'place', id: p.place },
    { in: 'placeOut', by: 'place', value: p.place },
  ],
  decide({ payload: p, root }, state) {
    if (!state.get('place', p.place)) return refuse('unknown-place', 'payload.place');
    return state.find('placeOut', 'place', p.place).some((out) => out.id !== root) ? refuse('already-so', 'payload.place') : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'placeOut', id: root, row: { place: p.place, at } }],
});
