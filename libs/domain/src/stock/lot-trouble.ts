import type { Need, State } from '../kernel/state.js';

/** What has to be loaded before `troubleWith` can be asked about a lot. */
export const lotNeeds = (lot: string): Need[] => [
  { in: 'lot', id: lot }, { in: 'lotDecision', by: 'lot', value: lot }, { in: 'hold', by: 'lot', value: lot }, { in: 'freed', by: 'lot', value: lot },
];

/** Why a lot should not have been used at an instant, or null. Using it is a fact all the same and is never refused for this. */
export function troubleWith(state: State, lot: string, at: string): 'held-lot-used' | 'refused-lot-used' | 'expired-lot-used' | null {
  const freed = new Set(state.find('freed', 'lot', lot).map((f) => f.hold));
  if (state.find('hold', 'lot', lot).some((h) => !freed.has(h.id) && h.at <= at)) return 'held-lot-used';
  const decisions = [...state.find('lotDecision', 'lot', lot)].sort((a, b) => (a.at < b.at ? -1 : 1));
  if (decisions.filter((d) => d.at <= at).at(-1)?.decision === 'refused') return 'refused-lot-used';
  const useBy = state.get('lot', lot)?.useBy;
  return useBy !== null && useBy !== undefined && useBy < at.slice(0, 10) ? 'expired-lot-used' : null;
}
