import * as z from 'zod';
import { id } from '../kernel/fields.js';
import { decided, defineKind } from '../kernel/kind.js';
import { refuse } from '../kernel/problems.js';

/** Somebody leaves: from then on nobody signs on by that name, and what they recorded stays readable. Told twice is no harm: the earlier counts. */
export const personLeft = defineKind({
  name: 'person-left',
  version: 1,
  book: 'organisation',
  sort: 'fact',
  offline: true,
  signed: null,
  permission: 'manage.people',
  phrase: 'Somebody left',
  payload: z.strictObject({ person: id }),
  outcome: z.strictObject({}),
  examples: [{ person: '0190a6d0-7b3c-7000-8000-000000000003' }],
  needs: (p) => [{ in: 'person', id: p.person }],
  decide: ({ payload: p }, state) => (state.get('person', p.person) ? decided({}) : refuse('unknown-person', 'payload.person')),
  rows: ({ payload: p, root, at }) => [{ in: 'personLeft', id: root, row: { person: p.person, at } }],
});
