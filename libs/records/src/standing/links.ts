import type { Need, Row, State } from '../base/state.js';
import { flowsInto } from './later-content.js';
import { isIntoPieces, isPutOn } from './put-on-make.js';
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
  const flows = into(state, lot);
  const named = state.knows({ in: 'lotIdentified', by: 'lot', value: lot }) ? state.find('lotIdentified', 'lot', lot) : [];
  const same = named.flatMap((i): Link[] => (i.same === null ? [] : [{ ...identified, source: i.same, target: lot, at: i.at }]));
  return [...withPutOn([...flows, ...beside(state, lot, flows)]).filter((f) => f.target === lot), ...same].filter((l) => l.source !== lot);
}

const into = (state: State, lot: string): Row<'flow'>[] =>
  state.knows({ in: 'flow', by: 'target', value: lot }) ? flowsInto(state, lot) : [];
const outOf = (lot: string): Need => ({ in: 'flow', by: 'source', value: lot });
const dividedOf = (state: State, make: string): Row<'flow'>[] =>
  state.knows(outOf(make)) ? state.find('flow', 'source', make).filter((f) => f.type === 'divided') : [];

/** What else has to be known to say onto what something was put: into what the make was divided, and of pieces what was put on their make. */
function beside(state: State, lot: string, flows: readonly Row<'flow'>[]): Row<'flow'>[] {
  const makes = [...new Set(flows.flatMap((f) => (f.type === 'divided' ? [f.source] : [])))];
  const onMakes = makes.flatMap((make) => into(state, make).filter(isPutOn));
  const divided = [...(flows.some(isPutOn) ? [lot] : []), ...onMakes.map((f) => f.target)].flatMap((make) => dividedOf(state, make));
  return [...onMakes, ...divided.filter((f) => f.target !== lot)];
}

/** What has to be looked for, as far as can be named now, before it is known onto what something was put that is recorded for a make. Needs `linkNeeds`. */
export function putOnNeeds(state: State, lot: string): Need[] {
  const flows = into(state, lot);
  return flows.some(isPutOn) && !flows.some(isIntoPieces) ? [outOf(lot)] : [];
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
