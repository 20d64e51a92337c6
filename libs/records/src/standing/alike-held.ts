import { latest } from '@bakehouse/kernel';
import { codeKeyOf, isAlike, type Coded } from './alike.js';
import { concernsOf, standingNeeds } from './standings.js';
import type { Need, State } from '../base/state.js';

/** A lot from outside as it is called by now: what is made here has a code of the house's own, which no supplier's lot has. */
function codedAt(state: State, id: string): Coded | undefined {
  const row = state.knows({ in: 'lot', id }) ? state.get('lot', id) : undefined;
  if (!row || row.codeState === 'own') return undefined;
  const named = state.knows({ in: 'lotIdentified', by: 'lot', value: id }) ? state.find('lotIdentified', 'lot', id) : [];
  return { id, material: row.material, code: row.code ?? latest(named.filter((i) => i.code !== null))?.code ?? null };
}

function byKey(own: Coded): Need[] {
  const value = codeKeyOf(own.code);
  if (value === null) return [];
  return [
    { in: 'lot', by: 'codeKey', value },
    { in: 'lotIdentified', by: 'codeKey', value },
  ];
}

/** The lots with this code, on the pack or given later, however it is spelt. */
function withCode(state: State, own: Coded): string[] {
  const key = codeKeyOf(own.code);
  if (key === null || !byKey(own).every((need) => state.knows(need))) return [];
  const named = state.find('lotIdentified', 'codeKey', key).map((i) => i.lot);
  return [...new Set([...state.find('lot', 'codeKey', key).map((l) => l.id), ...named])].sort();
}

const alikeAt = (state: State, own: Coded): string[] =>
  withCode(state, own).filter((id) => {
    const other = codedAt(state, id);
    return other !== undefined && isAlike(own, other);
  });

/** What has to be looked for, as far as can be named now, before `alikeHeld` can be asked of a lot. */
export function alikeHeldNeeds(state: State, lot: string): Need[] {
  const own = codedAt(state, lot);
  if (!own) return [{ in: 'lot', id: lot }];
  const named = withCode(state, own).flatMap((id): Need[] => [
    { in: 'lot', id },
    { in: 'lotIdentified', by: 'lot', value: id },
  ]);
  return [{ in: 'lotIdentified', by: 'lot', value: lot }, ...byKey(own), ...named, ...standingNeeds(state, alikeAt(state, own))];
}

/**
 * The lots that may be the same lot of the supplier's as this one and that something on record of then, or of now, speaks against: what was wrong with one may
 * be wrong with the other. It holds nothing and opens nothing, and is said. Needs `alikeHeldNeeds`.
 */
export function alikeHeld(state: State, lot: string, at: string | null = null): string[] {
  const own = codedAt(state, lot);
  if (!own || own.code === null) return [];
  const alike = alikeAt(state, own);
  const reaching = concernsOf(state, alike, at);
  return alike.filter((one) => (reaching.get(one) ?? []).length > 0);
}
