import { subjectsOf, upstreamOf, type State } from '@bakehouse/records';
import type { SavedEntry } from '../store/saved-entry.js';

type Saved = Pick<SavedEntry, 'id' | 'entry'>;

/** What an entry comes after: the pending entries that it builds on, and those that it rests on; all of them, since it must overtake none. */
export function comesAfter(
  { payload, corrects }: { readonly payload: unknown; readonly corrects: string | undefined },
  { madeBy, state }: { readonly madeBy: ReadonlyMap<string, string>; readonly state: State },
  pending: readonly Saved[],
): string[] {
  return [...new Set([...evidenceFor(payload, state, pending), ...dependsOn(payload, corrects, madeBy)])];
}

/**
 * The pending entries that something about to be saved builds on: those whose id, or a row that they make, stands anywhere in its payload or is
 * what it corrects. The other side then says "waiting" instead of refusing it when it arrives first.
 */
export function dependsOn(payload: unknown, corrects: string | undefined, madeBy: ReadonlyMap<string, string>): string[] {
  return [...new Set([...stringsIn(payload), ...stringsIn(corrects)].flatMap((id) => madeBy.get(id) ?? []))];
}

/**
 * The pending entries that speak of a batch which the payload names: of its make, its run or its loads too, and of every lot and make that went into it, as far as
 * this device knows. A release rests on their readings; were it taken before them it would be refused, or tell of something open that was answered already.
 */
export function evidenceFor(payload: unknown, state: State, pending: readonly Saved[]): string[] {
  const batches = [...stringsIn(payload)].flatMap((id) => state.get('batch', id) ?? []);
  if (batches.length === 0) return [];
  const lots = upstreamOf(
    state,
    batches.map((b) => b.id),
  );
  const subjects = new Set([
    ...lots,
    ...batches.flatMap((b) => subjectsOf(b, state)),
    ...lots.flatMap((lot) => state.get('lot', lot)?.delivery ?? []),
    ...lots.flatMap((lot) => {
      const made = state.get('batch', lot);
      return made ? subjectsOf(made, state) : [];
    }),
  ]);
  return pending.filter((e) => [...stringsIn(e.entry['payload'])].some((id) => subjects.has(id))).map((e) => e.id);
}

function* stringsIn(value: unknown): Generator<string> {
  if (typeof value === 'string') yield value;
  else if (typeof value === 'object' && value !== null) for (const one of Object.values(value)) yield* stringsIn(one);
}
