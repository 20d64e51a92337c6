import { inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';

/** What has to be looked for before `refusalsOf` can be asked. */
export const refusalNeeds = (lot: string): Need[] => [
  { in: 'receiptDecision', by: 'lot', value: lot },
  { in: 'refusalEnded', by: 'lot', value: lot },
];

/** The refusals of a lot that no signed decision ended. */
export function refusalsOf(state: State, lot: string): Row<'receiptDecision'>[] {
  const ended = new Set(state.find('refusalEnded', 'lot', lot).map((e) => e.refusal));
  return inOrder(state.find('receiptDecision', 'lot', lot)).filter((r) => r.decision === 'refused' && !ended.has(r.id));
}
