import { decided, id, instant, instantWithOffset, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/**
 * A place is put on hold: a light broke over the bench, moths in a store. What was there from then on, by the records of where food stands, is on hold with what is made of
 * it; until then, or as long as nobody says that the place may be used again. Which food that is follows from the records as they stand, whenever they come. Off line too: it is
 * the safe way.
 */
export const placePutOnHold = defineKind({
  name: 'place-put-on-hold',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: true,
  signed: null,
  permission: 'decide.goods',
  phrase: 'A place was put on hold',
  official: 'Place put on hold',
  words: ['because'],
  payload: z.strictObject({
    /** A station, a store, an oven, a vessel: with all that stands within it. */
    place: id,
    from: instantWithOffset,
    /** Null where what comes there later is on hold too, until the place may be used again. */
    until: instantWithOffset.nullable(),
  }),
  outcome: z.strictObject({ name: z.string(), begins: instant, ends: instant.nullable() }),
  examples: [{ place: '0190a6d0-7b3c-7000-8000-0000000000a3', from: '2026-11-25T03:00:00Z', until: null }],
  needs: (p) => [{ in: 'place', id: p.place }],
  decide(entry, state, { previous }) {
    const { payload: p, at } = entry;
    const place = state.get('place', p.place);
    if (!place) return refuse('unknown-place', 'payload.place');
    if (previous && previous.payload.place !== p.place)
      return refuse('unacceptable-value', 'payload.place', 'the same place: to hold another place, withdraw this and put that one on hold');
    const [begins, ends] = [p.from, p.until].map((t) => (t === null ? null : new Date(t).toISOString()));
    if (!begins || begins > at) return refuse('unacceptable-value', 'payload.from', 'no later than when it was put on hold');
    if (ends && ends < begins) return refuse('unacceptable-value', 'payload.until', 'no earlier than from when');
    return (
      missingWord(entry, 'because', 'what was found there, in a few words') ?? decided({ name: place.name, begins, ends: ends ?? null })
    );
  },
  rows: ({ payload: p, root, at, word }, o): Change[] => [
    {
      in: 'placeHold',
      id: root,
      row: { held: 'place', place: p.place, placeName: o.name, begins: o.begins, ends: o.ends, because: word('because'), at },
    },
  ],
});
