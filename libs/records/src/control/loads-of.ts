import type { Need, Row, State } from '../base/state.js';

type Batch = Pick<Row<'batch'>, 'run' | 'loads' | 'pieces' | 'rejects'>;

/** What has to be looked for before `loadsOfBatch` can be asked. */
export const loadsNeeds = (batch: Pick<Batch, 'run'>): Need[] => [{ in: 'loadLine', by: 'run', value: batch.run }];

/** The loads that a batch names, where they held as many pieces of its run as were counted; null where they say nothing for sure. Needs `loadsNeeds`. */
export function namedLoads(state: State, { run, loads: named, pieces, rejects }: Batch): readonly string[] | null {
  const held = heldBy(state, run);
  const inNamed = named.reduce((sum, l) => sum + (held.get(l) ?? 0), 0);
  return named.length > 0 && named.every((l) => held.has(l)) && inNamed >= pieces + rejects ? named : null;
}

function heldBy(state: State, run: string): ReadonlyMap<string, number> {
  const held = new Map<string, number>();
  for (const l of state.find('loadLine', 'run', run)) held.set(l.load, (held.get(l.load) ?? 0) + l.pieces);
  return held;
}

/**
 * The loads that a batch was baked in: those that were named when it was counted out; all of its run's beside them where one of them did not hold the run,
 * or they held fewer pieces than were counted, or none was named. As the records stand: a load that another tablet recorded later is among them.
 */
export const loadsOfBatch = (state: State, batch: Batch): string[] =>
  [...new Set(namedLoads(state, batch) ?? [...batch.loads, ...heldBy(state, batch.run).keys()])].sort();
