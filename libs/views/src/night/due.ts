import type { DoubtView } from '@bakehouse/contracts';
import { dayBounds, inOrder, latest, minutesAfter } from '@bakehouse/kernel';
import {
  answerOf,
  isFirstOfDay,
  pointApplies,
  readingsThatCount,
  unsettledAt,
  type PointContent,
  type Row,
  type SubjectType,
} from '@bakehouse/records';
import { bakingNow } from './loads.js';
import { doubtOn } from '../lookup/doubt.js';
import { nameOf, type Lookup } from '../lookup/lookup.js';

export interface DueView {
  readonly subjectType: SubjectType;
  readonly subject: string;
  readonly subjectName: string | null;
  readonly point: string;
  readonly key: string;
  readonly name: string;
  readonly parameter: string;
  readonly class: PointContent['class'];
  readonly measured: PointContent['measured'];
  readonly limit: PointContent['limit'];
  /**
   * When it can first be taken: the dough is mixed, the load is due out, the batch is counted, its time on display is over. Null where nobody knows yet.
   */
  readonly from: string | null;
  /** After this nobody can take it any more as the plan means it: its time on display is over, or its bake day. */
  readonly lateAt: string;
  /** A reading was taken that settles nothing, and why: ask again. */
  readonly again: { readonly verdict: Row<'reading'>['verdict']; readonly doubt: DoubtView | null } | null;
}

interface About {
  readonly type: SubjectType;
  readonly id: string;
  readonly from: string | null;
  readonly bakeDay: string;
}
interface Of {
  readonly formula: string;
  readonly product: string | null;
  readonly steps: readonly string[];
}

const rank: Readonly<Record<PointContent['class'], number>> = { ccp: 0, oprp: 1, 'process-check': 2 };

/** The readings of a bake day that the plan asks for and nobody has taken or answered, and critical ones that were taken and settle nothing: what must be taken first, then by when it can be. */
export function dueReadings(lookup: Lookup, bakeDay: string): DueView[] {
  const { state } = lookup;
  const makes = inOrder(state.find('make', 'bakeDay', bakeDay));
  const loads = inOrder(state.find('load', 'bakeDay', bakeDay));
  const batches = inOrder(state.find('batch', 'bakedOn', bakeDay));
  const all = [
    ...[...makes, ...loads, ...batches].flatMap(({ id }) => undecided(lookup, id)),
    ...makes.flatMap((m) => dueAtMake(lookup, m)),
    ...loads.flatMap((l) => dueAtLoad(lookup, l)),
    ...batches.flatMap((b) => dueAtBatch(lookup, b)),
  ];
  const distinct = [...new Map(all.map((d) => [`${d.subject} ${d.key}`, d])).values()];
  return distinct.sort(
    (a, b) => rank[a.class] - rank[b.class] || ((a.from ?? '9') < (b.from ?? '9') ? -1 : (a.from ?? '9') > (b.from ?? '9') ? 1 : 0),
  );
}

/** The readings that the plan asks for about one make and nobody has taken or answered. */
export function dueAtMake(lookup: Lookup, make: Row<'make'>): DueView[] {
  const steps = lookup.state.get('formulaVersion', make.formulaVersion)?.content.steps.map((s) => s.type) ?? [];
  const from = inOrder(lookup.state.find('mixed', 'make', make.id)).at(-1)?.at ?? null;
  return asked(
    lookup,
    make.plan,
    ['each-make'],
    { formula: make.formula, product: null, steps },
    { type: 'make', id: make.id, from, bakeDay: make.bakeDay },
  );
}

/** The readings that the plan asks for about one load and nobody has taken or answered. */
export function dueAtLoad(lookup: Lookup, load: Row<'load'>): DueView[] {
  const { state } = lookup;
  const now = bakingNow(lookup, load);
  const sameDay = state.find('loadLine', 'bakeDay', load.bakeDay);
  return state.find('loadLine', 'load', load.id).flatMap((line) => {
    const run = state.get('run', line.run);
    const make = run && state.get('make', run.make);
    if (!run || !make) return [];
    const frequencies: PointContent['frequency'][] = isFirstOfDay(load.id, line.product, sameDay)
      ? ['each-load', 'first-load-of-day']
      : ['each-load'];
    const about: About = { type: 'load', id: load.id, from: now.in ? now.due : now.outAt, bakeDay: load.bakeDay };
    return asked(lookup, make.plan, frequencies, { formula: make.formula, product: line.product, steps: run.steps }, about);
  });
}

/** The same of one batch. What is asked on display is due when its time there is over, and not before it was put there. */
export function dueAtBatch(lookup: Lookup, batch: Row<'batch'>): DueView[] {
  return asked(lookup, batch.plan, ['each-batch'], batch, { type: 'batch', id: batch.id, from: batch.at, bakeDay: batch.bakedOn });
}

/** By when something is asked for: on display, from when the batch was first put there until it was taken off again, or the limit was reached. Null where it never was. */
function timesOf(
  { state, at, zone }: Lookup,
  { type, id, from, bakeDay }: About,
  { step, limit }: PointContent,
): Pick<DueView, 'from' | 'lateAt'> | null {
  const dayEnds = dayBounds(bakeDay, zone).until;
  if (step !== 'display' || type !== 'batch') return { from, lateAt: dayEnds };
  const shown = inOrder(state.find('onCounter', 'lot', id).filter((c) => c.at <= at));
  const on = shown.find((c) => c.way === 'on')?.at;
  if (on === undefined) return null;
  const most = limit.type === 'elapsed' ? minutesAfter(on, limit.maxMinutes) : null;
  const off = shown.find((c) => c.way === 'off' && c.at >= on)?.at ?? null;
  const over = [most, off].flatMap((time) => time ?? []).sort()[0] ?? null;
  return { from: over ?? on, lateAt: over ?? dayEnds };
}

function asked(lookup: Lookup, plan: string | null, frequencies: readonly PointContent['frequency'][], of: Of, about: About): DueView[] {
  if (plan === null) return [];
  const { state } = lookup;
  const readings = readingsThatCount(state, about.id);
  const told = state.find('readingNotTaken', 'subject', about.id);
  return state.find('controlPoint', 'plan', plan).flatMap(({ id, content }): DueView[] => {
    if (!frequencies.includes(content.frequency) || !pointApplies(content, of)) return [];
    const answer = answerOf(content.key, about.id, readings);
    if (answer === 'within' || answer === 'outside' || told.some((n) => n.pointKey === content.key)) return [];
    const times = timesOf(lookup, about, content);
    if (times === null) return [];
    return [
      {
        subjectType: about.type,
        subject: about.id,
        subjectName: nameOf(lookup, about.type, about.id),
        point: id,
        key: content.key,
        name: content.name,
        parameter: content.parameter,
        class: content.class,
        measured: content.measured,
        limit: content.limit,
        ...times,
        again: answer === 'unsettled' ? lastOf(lookup, content.key, about.id) : null,
      },
    ];
  });
}

/** Critical readings that settle nothing, though the plan may not have asked for them here: they hold what they are about until one is clear. */
function undecided(lookup: Lookup, subject: string): DueView[] {
  return unsettledAt(lookup.state, subject).flatMap(({ reading }): DueView[] => {
    const { subjectType, point, pointKey, parameter, measured, judgedBy } = reading;
    if (point === null || pointKey === null || judgedBy === null) return [];
    return [
      {
        subjectType,
        subject,
        subjectName: nameOf(lookup, subjectType, subject),
        point,
        key: pointKey,
        name: lookup.state.get('controlPoint', point)?.content.name ?? parameter,
        parameter,
        class: 'ccp',
        measured,
        limit: judgedBy,
        from: reading.at,
        lateAt: reading.at,
        again: { verdict: reading.verdict, doubt: doubtOn(lookup, reading) },
      },
    ];
  });
}

function lastOf(lookup: Lookup, key: string, subject: string): DueView['again'] {
  const last = latest(lookup.state.find('reading', 'subject', subject).filter((r) => r.pointKey === key));
  return last ? { verdict: last.verdict, doubt: doubtOn(lookup, last) } : null;
}
