import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { administratorsNeed, administratorsThen, leavesNobody } from './last-administrator.js';
import { defineKind } from '../base/kind.js';

/**
 * Somebody leaves: from then on nobody signs on by that name, and what they recorded stays readable. Told twice is no harm: the earlier counts.
 * The last administrator gives the role to somebody else first, or nobody could ever give one again.
 */
export const personLeft = defineKind({
  name: 'person-left',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'This person has left',
  permission: 'manage.people',
  phrase: 'A person left',
  official: 'Person left',
  payload: z.strictObject({ person: id }),
  outcome: z.strictObject({}),
  examples: [{ person: '0190a6d0-7b3c-7000-8000-000000000003' }],
  needs: (p) => [{ in: 'person', id: p.person }, administratorsNeed],
  then: (_p, state) => administratorsThen(state),
  decide({ payload: p, at }, state) {
    if (!state.get('person', p.person)) return refuse('unknown-person', 'payload.person');
    return leavesNobody(state, at, (g) => g.person === p.person) ? refuse('last-administrator', 'payload.person') : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'personLeft', id: root, row: { person: p.person, at } }],
});
