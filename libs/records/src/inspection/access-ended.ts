import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** An inspector's access ends now, before it would have expired. */
export const accessEnded = defineKind({
  name: 'access-ended',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I end this access',
  permission: 'manage.access',
  phrase: 'An inspector’s access ended',
  official: 'Inspector’s access ended',
  words: ['note'],
  payload: z.strictObject({ access: id }),
  outcome: z.strictObject({ person: id }),
  examples: [{ access: '0190a6d0-7b3c-7000-8000-000000000151' }],
  needs: (p) => [
    { in: 'accessGiven', id: p.access },
    { in: 'accessEnded', by: 'access', value: p.access },
  ],
  decide({ payload: p, root }, state) {
    const access = state.get('accessGiven', p.access);
    if (!access) return refuse('unknown-subject', 'payload.access', 'an access that was given');
    const already = state.find('accessEnded', 'access', p.access).some((ended) => ended.id !== root);
    return already ? refuse('already-so', 'payload.access') : decided({ person: access.person });
  },
  rows: ({ payload: p, root, at }, o) => [{ in: 'accessEnded', id: root, row: { access: p.access, person: o.person, at } }],
});
