import type { Snapshot } from '@bakehouse/records';
import { batchesOf, type BatchView } from './batches.js';
import { heldFood, type HeldFood } from './held-food.js';
import { openDeviations, type DeviationView } from './deviations.js';
import { dueReadings, type DueView } from './due.js';
import { inUseView, type InUseView } from './in-use.js';
import { loadsOf, type LoadView } from './loads.js';
import { makesOf, type MakeView } from './makes.js';
import { timersOf, type TimerView } from './timers.js';
import { lookupOf } from '../lookup/lookup.js';

export interface NightView {
  readonly bakeDay: string;
  readonly at: string;
  readonly due: readonly DueView[];
  readonly timers: readonly TimerView[];
  readonly deviations: readonly DeviationView[];
  readonly heldFood: readonly HeldFood[];
  readonly inUse: readonly InUseView[];
  readonly makes: readonly MakeView[];
  readonly loads: readonly LoadView[];
  readonly batches: readonly BatchView[];
}

/** One screen of the night: today's bake as the records stand at an instant. The same on the tablet, off line too, and on the server. */
export function nightView(
  snapshot: Snapshot,
  { bakeDay, at, zone, site = null }: Pick<NightView, 'bakeDay' | 'at'> & { zone: string; site?: string | null },
): NightView {
  const lookup = lookupOf(snapshot, at, zone, site);
  return {
    bakeDay,
    at,
    due: dueReadings(lookup, bakeDay),
    timers: timersOf(lookup, bakeDay),
    deviations: openDeviations(lookup),
    heldFood: heldFood(lookup),
    inUse: inUseView(lookup),
    makes: makesOf(lookup, bakeDay),
    loads: loadsOf(lookup, bakeDay),
    batches: batchesOf(lookup, bakeDay),
  };
}
