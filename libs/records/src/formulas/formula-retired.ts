import { decided, id, isEnded, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { State } from '../base/state.js';

/** A formula is retired. Its versions stay readable; a later version puts it in force again. */
export const formulaRetired = defineKind({
  name: 'formula-retired',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.formulas',
  phrase: 'A formula was retired',
  official: 'Formula withdrawn from use',
  words: ['note'],
  payload: z.strictObject({ formula: id }),
  outcome: z.strictObject({}),
  examples: [{ formula: '0190a6d0-7b3c-7000-8000-0000000000d0' }],
  needs: (p) => [
    { in: 'formulaVersion', by: 'formula', value: p.formula },
    { in: 'formulaRetired', by: 'formula', value: p.formula },
  ],
  decide({ payload: p, root, at }, state) {
    if (state.find('formulaVersion', 'formula', p.formula).length === 0) return refuse('unknown-formula', 'payload.formula');
    return isAway(state, p.formula, at, root) ? refuse('already-so', 'payload.formula') : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'formulaRetired', id: root, row: { formula: p.formula, at } }],
});

/** Whether a formula is retired at an instant, with no later version that took it up again. `except` leaves one putting-retired out. */
export function isAway(state: State, formula: string, at: string, except?: string): boolean {
  const ends = state
    .find('formulaRetired', 'formula', formula)
    .filter((a) => a.id !== except)
    .map((a) => a.at);
  return isEnded(
    ends,
    state.find('formulaVersion', 'formula', formula).map((v) => v.since),
    at,
  );
}
