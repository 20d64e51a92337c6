import { grouped } from '@bakehouse/kernel';
import { dueAtLoad } from './due.js';
import { bakingNow } from './loads.js';
import type { Lookup } from '../lookup/lookup.js';

/** What is missing from loads that pieces are about to be counted out of. */
export interface Unfinished {
  /** How many are in the oven by the records. */
  readonly inOven: number;
  /** What the plan asks for as critical or control, and for how many of the loads it is not read, or read and not settled. */
  readonly unread: readonly { readonly parameter: string; readonly loads: number; readonly again: boolean }[];
}

export function unfinishedOf(lookup: Lookup, ids: readonly string[]): Unfinished {
  const loads = ids.flatMap((id) => lookup.state.get('load', id) ?? []);
  const due = loads.flatMap((load) => dueAtLoad(lookup, load)).filter((d) => d.class !== 'process-check');
  return {
    inOven: loads.filter((load) => bakingNow(lookup, load).in).length,
    unread: [...grouped(due, (d) => `${d.parameter} ${d.again === null}`).values()].flatMap((of) =>
      of[0] ? [{ parameter: of[0].parameter, loads: new Set(of.map((d) => d.subject)).size, again: of[0].again !== null }] : [],
    ),
  };
}
