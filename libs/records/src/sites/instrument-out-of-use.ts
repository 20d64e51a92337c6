import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** An instrument is not measured with any more. What it measured keeps its verdicts; those that could be wrong are listed apart. */
export const instrumentOutOfUse = defineKind({
  name: 'instrument-out-of-use',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.site',
  phrase: 'A measuring instrument was taken out of use',
  official: 'Measuring instrument taken out of use',
  words: ['note'],
  payload: z.strictObject({ instrument: id }),
  outcome: z.strictObject({}),
  examples: [{ instrument: '0190a6d0-7b3c-7000-8000-000000000131' }],
  needs: (p) => [
    { in: 'instrument', id: p.instrument },
    { in: 'instrumentOut', by: 'instrument', value: p.instrument },
  ],
  decide({ payload: p, root }, state) {
    if (!state.get('instrument', p.instrument)) return refuse('unknown-instrument', 'payload.instrument');
    return state.find('instrumentOut', 'instrument', p.instrument).some((out) => out.id !== root)
      ? refuse('already-so', 'payload.instrument')
      : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'instrumentOut', id: root, row: { instrument: p.instrument, at } }],
});
