import { acceptedNeeds } from './accepted-part.js';
import { laterNeeds } from './later-content.js';
import { linksInto, putOnNeeds, sourcesOf } from './links.js';
import { roomNeeds } from './room.js';
import { usedPastLifeNeeds } from './past-life.js';
import { useByNeeds } from './use-by.js';
import { concernNeeds, subjectsAt } from './concern.js';
import type { CollectionName, Need, Row, State } from '../base/state.js';
import { checksBeside } from '../control/unsettled.js';

type Found = { [C in CollectionName]?: Row<C>[] };

/**
 * The rows that `concernsOf` needs to find the same concerns for these lots as where they were found: of the lots that were reached, each that a concern
 * came by, with what speaks against it. What went into a make goes along whole, so that its sums come out the same.
 */
export function rowsBehind(state: State, lots: readonly string[], reached: ReadonlySet<string>): Found {
  const nodes = new Set(lots.filter((lot) => reached.has(lot)));
  for (const lot of nodes) for (const source of sourcesOf(state, lot)) if (reached.has(source)) nodes.add(source);
  const found: Found = {};
  const add = <C extends CollectionName>(collection: C, rows: readonly (Row<C> | undefined)[]): void => {
    const list: Row<C>[] = found[collection] ?? [];
    list.push(...rows.filter((row) => row !== undefined));
    Object.assign(found, { [collection]: list });
  };
  const addNeed = (need: Need): void =>
    add(need.in, 'id' in need ? [state.get(need.in, need.id)] : state.find(need.in, need.by, need.value));
  for (const lot of nodes) {
    for (const need of concernNeeds(state, lot)) if (need.in !== 'instrumentCheck' && state.knows(need)) addNeed(need);
    add('lotIdentified', state.find('lotIdentified', 'lot', lot));
    for (const need of [...useByNeeds(state, lot), ...usedPastLifeNeeds(state, lot)]) addNeed(need);
    for (const need of [...laterNeeds(state, lot), ...putOnNeeds(state, lot), ...acceptedNeeds(state, lot)])
      if ('by' in need && need.in !== 'party') add(need.in, state.find(need.in, need.by, need.value));
    // What there was of each lot that it may be of: all of what was asked of it, or none, as a sum of some of it would be wrong. Parties are there.
    for (const member of anyInto(state, lot)) for (const need of roomNeeds(state, member)) if (need.in !== 'party') addNeed(need);
    for (const s of subjectsAt(state, lot)) add('deviation', state.find('deviation', 'subject', s));
  }
  // Of an instrument's checks, years of them perhaps, those that say whether one of these readings can be trusted.
  for (const reading of found.reading ?? []) {
    const of = reading.instrument === null ? undefined : ({ in: 'instrumentCheck', by: 'instrument', value: reading.instrument } as const);
    if (!of || !state.knows(of)) continue;
    const { before, after } = checksBeside(state.find(of.in, of.by, of.value), reading);
    add('instrumentCheck', [...before, ...after]);
  }
  return found;
}

/** The lots of which any may have gone into this one, where it is known how much there was of each. */
const anyInto = (state: State, lot: string): string[] => [
  ...new Set(
    linksInto(state, lot).flatMap((l) => (l.anyOf !== null && roomNeeds(state, l.source).every((n) => state.knows(n)) ? l.source : [])),
  ),
];
