import type { Need, State } from '../base/state.js';
import { flowsInto } from './later-content.js';
import { withPutOn, type Link } from './surely.js';

/** What has to be looked for before a lot's sources are known: everything upstream of it in one question. */
export const linkNeeds = (lot: string): Need[] => [
  { in: 'flow', by: 'target', value: lot, follow: 'source' },
  { in: 'lotIdentified', by: 'lot', value: lot, follow: 'same' },
];

/** Since when nothing speaks against a lot or anything that it comes from, where that was known and nobody looked further; null otherwise. */
export const clearSince = (state: State, lot: string): string | null => state.endsAt({ in: 'flow', by: 'target', value: lot });

/**
 * What links a lot to what it comes from directly: what flowed into it, and what it was identified as. A link to itself leads nowhere, nor does one behind a
 * clear lot.
 */
export function linksInto(state: State, lot: string): Link[] {
  if (clearSince(state, lot) !== null) return [];
  const flows = state.knows({ in: 'flow', by: 'target', value: lot }) ? flowsInto(state, lot) : [];
  const named = state.knows({ in: 'lotIdentified', by: 'lot', value: lot }) ? state.find('lotIdentified', 'lot', lot) : [];
  const same = named.flatMap((i): Link[] => (i.same === null ? [] : [{ ...identified, source: i.same, target: lot, at: i.at }]));
  return [...withPutOn(flows), ...same].filter((l) => l.source !== lot);
}

const identified = { certain: true, anyOf: null, mg: null, pieces: null } as const;

/** The lots that a lot comes from directly, each once. */
export const sourcesOf = (state: State, lot: string): string[] => [...new Set(linksInto(state, lot).map((l) => l.source))];

/** These lots and everything that they come from, however indirectly, as far as it is known; nearest first. Linear in lots and links. */
export function upstreamOf(state: State, lots: readonly string[]): string[] {
  const seen = new Set(lots);
  for (const lot of seen) for (const source of sourcesOf(state, lot)) seen.add(source);
  return [...seen];
}
