import { inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';

/** What has to be looked for before the refusals of a lot can be asked. */
export const refusalNeeds = (lot: string): Need[] => [
  { in: 'receiptDecision', by: 'lot', value: lot },
  { in: 'refusalEnded', by: 'lot', value: lot },
];

/** The decisions that refused a lot, ended or not, in order. */
export const refusedIn = (state: State, lot: string): Row<'receiptDecision'>[] =>
  inOrder(state.find('receiptDecision', 'lot', lot)).filter((r) => r.decision === 'refused');

/** The refusals of a lot that no signed decision ended. */
export function refusalsOf(state: State, lot: string): Row<'receiptDecision'>[] {
  const ended = new Set(state.find('refusalEnded', 'lot', lot).map((e) => e.refusal));
  return refusedIn(state, lot).filter((r) => !ended.has(r.id));
}
