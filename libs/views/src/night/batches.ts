import { inOrder } from '@bakehouse/kernel';
import { holdingDeviations as holding, releaseFindings, subjectsOf, type Finding, type Row } from '@bakehouse/records';
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
   * Released by rule or by exception; ready to release by rule; or waiting for these. Released stays released; what holds it now, and was not signed for, is shown.
   */
  readonly release:
    | { readonly state: 'released'; readonly way: Row<'release'>['way']; readonly at: string; readonly since: readonly Finding[] }
    | { readonly state: 'may-go' }
    | { readonly state: 'waits'; readonly findings: readonly Finding[] };
}

/** The batches of a bake day in the order they were counted out, each with whether it may leave. */
export const batchesOf = (lookup: Lookup, bakeDay: string): BatchView[] =>
  inOrder(lookup.state.find('batch', 'bakedOn', bakeDay)).map((batch) => batchView(lookup, batch));

/** One batch with whether it may leave and what it waits for. */
export function batchView({ state }: Lookup, batch: Row<'batch'>): BatchView {
  const { id, run, make, product, productName: name, code, bestBefore, useBy, pieces, rejects, loads, at } = batch;
  const view = { id, run, make, product, name, code, bestBefore, useBy, pieces, rejects, loads, at };
  const released = inOrder(state.find('release', 'batch', id))[0];
  if (released) {
    const known = (d: Row<'deviation'>): boolean => released.findings.some((f) => f.deviation === d.id);
    const since = subjectsOf(batch)
      .flatMap((s) => holding(state, s))
      .filter((d) => !known(d));
    return {
      ...view,
      release: {
        state: 'released',
        way: released.way,
        at: released.at,
        since: since.map((d) => ({ code: 'open-deviation', subject: d.subject, what: d.summary, deviation: d.id })),
      },
    };
  }
  const findings = releaseFindings(batch, state);
  return { ...view, release: findings.length === 0 ? { state: 'may-go' } : { state: 'waits', findings } };
}
