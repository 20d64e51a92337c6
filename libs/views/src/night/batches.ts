import { inOrder } from '@bakehouse/kernel';
import { hadCodeBefore, leftOf, loadsOfBatch, movementsOf, sharesPieces, type Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';
import { batchReleaseOf, type BatchRelease } from '../standing/batch-standing.js';

export interface BatchView {
  readonly id: string;
  readonly run: string;
  readonly make: string;
  readonly product: string;
  readonly name: string;
  readonly code: string;
  readonly bestBefore: string | null;
  readonly useBy: string | null;
  readonly pieces: number;
  readonly rejects: number;
  /** Of the pieces, those that are in the house by the records, its own shop included; below zero where more went than there were, null where nobody can say. */
  readonly left: number | null;
  readonly loads: readonly string[];
  readonly at: string;
  /** The other batches that some of the same pieces were counted into, and the batch that had its code before. */
  readonly sharesWith: readonly string[];
  readonly codeOf: string | null;
  readonly release: BatchRelease;
}

/** The batches of a bake day in the order they were counted out, each with whether it may leave. */
export const batchesOf = (lookup: Lookup, bakeDay: string): BatchView[] =>
  inOrder(lookup.state.find('batch', 'bakedOn', bakeDay)).map((batch) => batchView(lookup, batch));

/** One batch with whether it may leave and what it waits for. */
export function batchView({ state, concerns, at: now }: Lookup, batch: Row<'batch'>): BatchView {
  const { id, run, make, product, productName: name, code, bestBefore, useBy, pieces, rejects, at } = batch;
  const loads = loadsOfBatch(state, batch);
  const sharesWith = (sharesPieces(state, batch)?.batches ?? []).map((other) => other.id).filter((other) => other !== id);
  const codeOf = hadCodeBefore(state, batch)?.id ?? null;
  const left = leftOf(pieces, movementsOf(state, id, now, { oneOfSeveral: 'left-out' }), 'pieces');
  const view = { id, run, make, product, name, code, bestBefore, useBy, pieces, rejects, left, loads, at, sharesWith, codeOf };
  return { ...view, release: batchReleaseOf(state, batch, concerns.get(id) ?? []) };
}
