import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { cleanDownType } from '../rows/control.js';

/** Equipment or a station was cleaned down: what was on it before cannot reach what is made there after. */
export const cleanedDown = defineKind({
  name: 'cleaned-down',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A place was cleaned down',
  words: ['note'],
  payload: z.strictObject({
    place: id,
    type: cleanDownType,
    chemical: z.string().max(80).nullable(),
    dilution: z.string().max(40).nullable(),
    contactMinutes: z.int().nonnegative().nullable(),
  }),
  outcome: z.strictObject({}),
  examples: [{ place: '0190a6d0-7b3c-7000-8000-000000000201', type: 'wet', chemical: 'sanitiser', dilution: '1:50', contactMinutes: 5 }],
  needs: (p) => [{ in: 'place', id: p.place }],
  decide: ({ payload }, state) => (state.get('place', payload.place) ? decided({}) : refuse('unknown-place', 'payload.place')),
  rows: ({ payload: p, root, at, doneBy }, _o, stamp) => [{ in: 'cleanDown', id: root, row: { ...p, at, doneBy: doneBy ?? stamp.person } }],
});
