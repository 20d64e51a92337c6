import type { Need, State } from '../base/state.js';
import { flowsInto } from './later-content.js';

/** What has to be looked for before a lot's sources are known: everything upstream of it in one question. */
export const linkNeeds = (lot: string): Need[] => [
  { in: 'flow', by: 'target', value: lot, follow: 'source' },
  { in: 'lotIdentified', by: 'lot', value: lot, follow: 'same' },
];

/** Since when nothing speaks against a lot or anything that it comes from, where that was known and nobody looked further; null otherwise. */
export const clearSince = (state: State, lot: string): string | null => state.endsAt({ in: 'flow', by: 'target', value: lot });

/**
 * The lots that a lot comes from directly: what flowed into it, and what it was identified as. Each once; a link to itself leads nowhere, nor does one
 * behind a clear lot.
 */
export function sourcesOf(state: State, lot: string): string[] {
  if (clearSince(state, lot) !== null) return [];
  const sources = [
    ...(state.knows({ in: 'flow', by: 'target', value: lot }) ? flowsInto(state, lot).map((f) => f.source) : []),
    ...(state.knows({ in: 'lotIdentified', by: 'lot', value: lot })
      ? state.find('lotIdentified', 'lot', lot).flatMap((i) => i.same ?? [])
      : []),
  ];
  return [...new Set(sources)].filter((s) => s !== lot);
}

/** These lots and everything that they come from, however indirectly, as far as it is known; nearest first. Linear in lots and links. */
export function upstreamOf(state: State, lots: readonly string[]): string[] {
  const seen = new Set(lots);
  for (const lot of seen) for (const source of sourcesOf(state, lot)) seen.add(source);
  return [...seen];
}

/** Whether the link from a source into a lot is certain: weighed in or identified as, and not one of several. */
export function certainLink(state: State, source: string, lot: string): boolean {
  return (
    flowsInto(state, lot).some((f) => f.source === source && f.certain) ||
    state.find('lotIdentified', 'lot', lot).some((i) => i.same === source)
  );
}
