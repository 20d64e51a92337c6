import { decided, id, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { cleanDownType } from '../rows/control.js';

const place = {
  place: id,
  type: cleanDownType,
  chemical: z.string().max(80).nullable(),
  dilution: z.string().max(40).nullable(),
};

/** In version 1 the time that a chemical was left on was told in whole minutes: half a minute, which many a label asks for, could not be. */
const inMinutes = z.strictObject({ ...place, contactMinutes: z.int().nonnegative().nullable() });

/** Equipment or a station was cleaned down: what was on it before cannot reach what is made there after. */
export const cleanedDown = defineKind({
  name: 'cleaned-down',
  version: 2,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A place was cleaned down',
  official: 'Cleaning record',
  words: ['note'],
  payload: z.strictObject({ ...place, contactSeconds: z.int().nonnegative().nullable() }),
  upcast: {
    1: upcaster(inMinutes, ({ contactMinutes, ...same }) => ({
      ...same,
      contactSeconds: contactMinutes === null ? null : contactMinutes * 60,
    })),
  },
  /** What the place was called then; unknown of those that were recorded before outcomes said so. */
  outcome: z.strictObject({ name: z.string().nullable() }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject({}), () => ({ name: null })) },
  examples: [{ place: '0190a6d0-7b3c-7000-8000-000000000201', type: 'wet', chemical: 'sanitiser', dilution: '1:50', contactSeconds: 300 }],
  needs: (p) => [{ in: 'place', id: p.place }],
  decide({ payload }, state) {
    const found = state.get('place', payload.place);
    return found ? decided({ name: found.name }) : refuse('unknown-place', 'payload.place');
  },
  rows: ({ payload: p, root, at, doneBy }, { name }, stamp) => [
    { in: 'cleanDown', id: root, row: { ...p, name, at, doneBy: doneBy ?? stamp.person } },
  ],
});
