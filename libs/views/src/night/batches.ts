import { inOrder } from '@bakehouse/kernel';
import { asFindings, destroyedWhole, loadsOfBatch, releaseFindings, type Finding, type Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

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
  readonly loads: readonly string[];
  readonly at: string;
  /**
   * Released by rule or by exception, with what was found since; something speaks against it; it waits for readings; or it is ready to be released by
   * rule. Released stays released. Destroyed, of which nothing is left, whatever was decided before.
   */
  readonly release:
    | { readonly state: 'released'; readonly way: Row<'release'>['way']; readonly at: string; readonly since: readonly Finding[] }
    | { readonly state: 'may-go' | 'destroyed' }
    | { readonly state: 'on-hold' | 'waits'; readonly findings: readonly Finding[] };
}

/** The batches of a bake day in the order they were counted out, each with whether it may leave. */
export const batchesOf = (lookup: Lookup, bakeDay: string): BatchView[] =>
  inOrder(lookup.state.find('batch', 'bakedOn', bakeDay)).map((batch) => batchView(lookup, batch));

/** One batch with whether it may leave and what it waits for. */
export function batchView({ state, concerns }: Lookup, batch: Row<'batch'>): BatchView {
  const { id, run, make, product, productName: name, code, bestBefore, useBy, pieces, rejects, at } = batch;
  const loads = loadsOfBatch(state, batch);
  const view = { id, run, make, product, name, code, bestBefore, useBy, pieces, rejects, loads, at };
  if (destroyedWhole(state, id)) return { ...view, release: { state: 'destroyed' } };
  const reaching = concerns.get(id) ?? [];
  const released = inOrder(state.find('release', 'batch', id))[0];
  // What an exception was signed in spite of is decided: only what came after it is found.
  if (released) return { ...view, release: { state: 'released', way: released.way, at: released.at, since: asFindings(reaching) } };
  const findings = releaseFindings(batch, state, reaching);
  if (findings.length === 0) return { ...view, release: { state: 'may-go' } };
  return { ...view, release: { state: findings.some((f) => f.concern !== null) ? 'on-hold' : 'waits', findings } };
}
