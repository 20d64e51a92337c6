import { inOrder, minutesAfter } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { concernsOn } from './concerns.js';
import { readingsOf, type ReadingView } from './readings.js';
import { nameOf, type Lookup } from '../lookup/lookup.js';

export interface LoadView {
  readonly id: string;
  readonly name: string | null;
  readonly oven: string;
  readonly ovenName: string | null;
  readonly deck: string | null;
  readonly deckName: string | null;
  readonly celsius: number | null;
  /** Each with whether its run is on hold. */
  readonly lines: readonly {
    readonly run: string;
    readonly product: string;
    readonly name: string;
    readonly pieces: number;
    readonly onHold: boolean;
  }[];
  readonly inAt: string;
  readonly steps: readonly Pick<Row<'loadStep'>, 'step' | 'minutes' | 'at'>[];
  /** In the oven now, since when this time, and when it is due out; or when it came out. */
  readonly now: { readonly in: true; readonly since: string; readonly due: string | null } | { readonly in: false; readonly outAt: string };
  readonly readings: readonly ReadingView[];
}

/** The loads of a bake day in the order they went in. */
export const loadsOf = (lookup: Lookup, bakeDay: string): LoadView[] =>
  inOrder(lookup.state.find('load', 'bakeDay', bakeDay)).map((load) => loadView(lookup, load));

/** One load: what is in it, where it is, and what was read. */
export function loadView(lookup: Lookup, load: Row<'load'>): LoadView {
  const { state } = lookup;
  const steps = stepsOf(lookup, load);
  return {
    id: load.id,
    name: nameOf(lookup, 'load', load.id),
    oven: load.oven,
    ovenName: state.get('place', load.oven)?.name ?? null,
    deck: load.deck,
    deckName: load.deck === null ? null : (state.get('place', load.deck)?.name ?? null),
    celsius: load.celsius,
    lines: [...state.find('loadLine', 'load', load.id)]
      .sort((a, b) => (a.id < b.id ? -1 : 1))
      .map(({ run, product, productName: name, pieces }) => ({ run, product, name, pieces, onHold: concernsOn(lookup, run).length > 0 })),
    inAt: load.at,
    steps: steps.map(({ step, minutes, at }) => ({ step, minutes, at })),
    now: bakingNow(lookup, load, steps),
    readings: readingsOf(lookup, load.id),
  };
}

const stepsOf = ({ state }: Lookup, load: Row<'load'>): Row<'loadStep'>[] => inOrder(state.find('loadStep', 'load', load.id));

/**
 * Whether a load is in the oven, and since or until when. Minutes more for a load that is in by the records never let it come out earlier than it
 * was due: it stays for the longer of the two.
 */
export function bakingNow(lookup: Lookup, load: Row<'load'>, steps = stepsOf(lookup, load)): LoadView['now'] {
  const first: LoadView['now'] = { in: true, since: load.at, due: dueAfter(load) };
  return steps.reduce<LoadView['now']>((now, step) => {
    if (step.step === 'turned') return now;
    if (step.step !== 'back-in') return { in: false, outAt: step.at };
    const due = dueAfter(step);
    if (!now.in) return { in: true, since: step.at, due };
    return { ...now, due: now.due === null || (due !== null && due > now.due) ? due : now.due };
  }, first);
}

const dueAfter = ({ at, minutes }: Pick<Row<'loadStep'>, 'at' | 'minutes'>): string | null =>
  minutes === null ? null : minutesAfter(at, minutes);
