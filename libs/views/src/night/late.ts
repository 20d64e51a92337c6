import { countingNeeds, snapshotOf, type Need, type State } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';
import { dueAtBatch, dueAtLoad, dueAtMake, type DueView } from './due.js';

/** What a plan may ask readings about, by their ids. */
export interface Subjects {
  readonly makes: readonly string[];
  readonly loads: readonly string[];
  readonly batches: readonly string[];
}

/** Whether a critical reading was never taken, and its time is over: that is not taken, though nobody said so. One that was taken and settles nothing is not. */
export const isLate = ({ class: its, again, lateAt }: DueView, at: string): boolean => its === 'ccp' && again === null && lateAt < at;

/** The critical readings that the plan asked for about these and nobody took or answered in time, each once. Needs `lateNeeds`. */
export function lateReadings(lookup: Lookup, { makes, loads, batches }: Subjects): DueView[] {
  const { state, at } = lookup;
  const all = [
    ...makes.flatMap((id) => state.get('make', id) ?? []).flatMap((m) => dueAtMake(lookup, m)),
    ...loads.flatMap((id) => state.get('load', id) ?? []).flatMap((l) => dueAtLoad(lookup, l)),
    ...batches.flatMap((id) => state.get('batch', id) ?? []).flatMap((b) => dueAtBatch(lookup, b)),
  ];
  return [...new Map(all.filter((d) => isLate(d, at)).map((d) => [`${d.subject} ${d.key}`, d])).values()];
}

/** The same of rows that were looked up for it, as of an instant. */
export const lateIn = (state: State, of: Subjects, at: string, zone: string): DueView[] =>
  lateReadings({ snapshot: snapshotOf({}), state, at, zone, site: null, concerns: new Map() }, of);

/** What has to be looked for before `lateReadings` can be asked: ask again until it names nothing new. */
export function lateNeeds(state: State, of: Subjects): Need[] {
  const found = <T>(need: Need, then: () => readonly T[]): readonly T[] => (state.knows(need) ? then() : []);
  const plan = (id: string | null | undefined): Need[] =>
    id === null || id === undefined ? [] : [{ in: 'controlPoint', by: 'plan', value: id }];
  const about = (id: string): Need[] => [
    ...countingNeeds(state, id),
    { in: 'readingNotTaken', by: 'subject', value: id },
    ...found<Need>({ in: 'reading', by: 'subject', value: id }, () =>
      state.find('reading', 'subject', id).flatMap((r): Need[] => (r.instrument === null ? [] : [{ in: 'instrument', id: r.instrument }])),
    ),
  ];
  const ofMake = (id: string): Need[] => [
    { in: 'make', id },
    { in: 'mixed', by: 'make', value: id },
    ...found<Need>({ in: 'make', id }, () => {
      const make = state.get('make', id);
      return make === undefined ? [] : [{ in: 'formulaVersion', id: make.formulaVersion }, ...plan(make.plan)];
    }),
  ];
  const ofLoad = (id: string): Need[] => {
    const lines: Need = { in: 'loadLine', by: 'load', value: id };
    return [
      { in: 'load', id },
      { in: 'loadStep', by: 'load', value: id },
      lines,
      ...found<Need>({ in: 'load', id }, () => [{ in: 'loadLine', by: 'bakeDay', value: state.get('load', id)?.bakeDay ?? '' }]),
      ...found<Need>(lines, () => state.find('loadLine', 'load', id).map(({ run }) => ({ in: 'run', id: run }))),
      ...found<Need>(lines, () =>
        state
          .find('loadLine', 'load', id)
          .flatMap(({ run }) => found({ in: 'run', id: run }, () => ofMake(state.get('run', run)?.make ?? ''))),
      ),
    ];
  };
  const ofBatch = (id: string): Need[] => [
    { in: 'batch', id },
    { in: 'onCounter', by: 'lot', value: id },
    ...found<Need>({ in: 'batch', id }, () => plan(state.get('batch', id)?.plan)),
  ];
  return [
    ...[...of.makes, ...of.loads, ...of.batches].flatMap(about),
    ...of.makes.flatMap(ofMake),
    ...of.loads.flatMap(ofLoad),
    ...of.batches.flatMap(ofBatch),
  ];
}
