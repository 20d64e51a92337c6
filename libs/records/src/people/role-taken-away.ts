import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { administratorsNeed, administratorsThen, leavesNobody } from './last-administrator.js';
import { defineKind } from '../base/kind.js';

/** A role that was given ends now. `given` names the giving, so that one of several roles can end. */
export const roleTakenAway = defineKind({
  name: 'role-taken-away',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I take this role away',
  permission: 'manage.people',
  phrase: 'A role was taken away',
  official: 'Role withdrawn',
  payload: z.strictObject({ given: id }),
  outcome: z.strictObject({ person: id }),
  examples: [{ given: '0190a6d0-7b3c-7000-8000-000000000111' }],
  needs: (p) => [{ in: 'roleGiven', id: p.given }, { in: 'roleTaken', by: 'given', value: p.given }, administratorsNeed],
  then: (_p, state) => administratorsThen(state),
  decide({ payload: p, root, at }, state) {
    const given = state.get('roleGiven', p.given);
    if (!given) return refuse('unknown-subject', 'payload.given', 'a role that was given');
    const already = state.find('roleTaken', 'given', p.given).some((taken) => taken.id !== root);
    if (already) return refuse('already-so', 'payload.given');
    return leavesNobody(state, at, (g) => g.id === p.given)
      ? refuse('last-administrator', 'payload.given')
      : decided({ person: given.person });
  },
  rows: ({ payload: p, root, at }, o) => [{ in: 'roleTaken', id: root, row: { given: p.given, person: o.person, at } }],
});
