import { latest } from '@bakehouse/kernel';
import { isAlike, lotCodeKey, type Coded } from './alike.js';
import { concernsOf, standingNeeds } from './standings.js';
import type { Need, State } from '../base/state.js';

/** A lot from outside as it is called by now: what is made here has a code of the house's own, which no supplier's lot has. */
function codedAt(state: State, id: string): Coded | undefined {
  const row = state.knows({ in: 'lot', id }) ? state.get('lot', id) : undefined;
  if (!row || row.codeState === 'own') return undefined;
  const named = state.knows({ in: 'lotIdentified', by: 'lot', value: id }) ? state.find('lotIdentified', 'lot', id) : [];
  return { id, material: row.material, code: row.code ?? latest(named.filter((i) => i.code !== null))?.code ?? null };
}

/** The spellings of a code that are looked up by index: as it is written, and without spaces and dashes in small letters and in capitals. */
const spellings = (code: string): string[] => [...new Set([code, lotCodeKey(code), lotCodeKey(code).toUpperCase()])];

const byCode = ({ code }: Coded): Need[] => (code === null ? [] : spellings(code).map((value): Need => ({ in: 'lot', by: 'code', value })));

function alikeAt(state: State, own: Coded): string[] {
  const found = spellings(own.code ?? '').flatMap((value) =>
    state.knows({ in: 'lot', by: 'code', value }) ? state.find('lot', 'code', value) : [],
  );
  const whole = state.knows({ in: 'lot', by: 'material', value: own.material }) ? state.find('lot', 'material', own.material) : [];
  const alike = [...found, ...whole].filter(({ id }) => {
    const other = codedAt(state, id);
    return other !== undefined && isAlike(own, other);
  });
  return [...new Set(alike.map(({ id }) => id))].sort();
}

/** What has to be looked for, as far as can be named now, before `alikeHeld` can be asked of a lot. */
export function alikeHeldNeeds(state: State, lot: string): Need[] {
  const own = codedAt(state, lot);
  if (!own) return [{ in: 'lot', id: lot }];
  return [...byCode(own), ...standingNeeds(state, alikeAt(state, own))];
}

/**
 * The lots that may be the same lot of the supplier's as this one and that something on record of then, or of now, speaks against: what was wrong with one may
 * be wrong with the other. It holds nothing and opens nothing, and is said. Needs `alikeHeldNeeds`; where all lots of the material are there, every spelling counts.
 */
export function alikeHeld(state: State, lot: string, at: string | null = null): string[] {
  const own = codedAt(state, lot);
  if (!own || own.code === null) return [];
  const alike = alikeAt(state, own);
  const reaching = concernsOf(state, alike, at);
  return alike.filter((one) => (reaching.get(one) ?? []).length > 0);
}
