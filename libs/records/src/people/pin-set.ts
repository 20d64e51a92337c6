import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/**
 * Somebody was given a PIN or chose one: that it changed and by whom, never what it is. The service alone records it, with the change or not at all; no role
 * may. It makes no rows: it is there to be read, by the person whose PIN it is first of all.
 */
export const pinSet = defineKind({
  name: 'pin-set',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'service',
  phrase: 'A PIN was set',
  official: 'PIN set',
  payload: z.strictObject({ person: id }),
  outcome: z.strictObject({}),
  examples: [{ person: '0190a6d0-7b3c-7000-8000-000000000003' }],
  needs: (p) => [{ in: 'person', id: p.person }],
  decide: ({ payload: p }, state) => (state.get('person', p.person) ? decided({}) : refuse('unknown-person', 'payload.person')),
  rows: () => [],
});
