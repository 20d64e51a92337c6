import { dayText } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { firstLoadIds } from './first-load.js';
import { flowsInto, laterNeeds } from './later-content.js';
import { clearSince } from './links.js';
import { notReadIds } from './not-read.js';
import { reworkId } from './rework.js';

/** A lot with a use-by date, as it is in something. */
export interface Keeps {
  readonly lot: string;
  readonly name: string;
  readonly useBy: string;
}

interface Step {
  readonly lot: string;
  /** The latest day on which it went on, on the way from there. */
  readonly day: string;
}

const lotAt = (state: State, lot: string): Row<'lot'> | undefined =>
  state.knows({ in: 'lot', id: lot }) ? state.get('lot', lot) : undefined;

/** What a lot turned out to be, and what a vessel's content holds, each with the day on which it went in there. As known at an instant, or now. */
function behind(state: State, lot: string, at: string | null): Step[] {
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((row) => at === null || row.at <= at);
  const named = state.knows({ in: 'lotIdentified', by: 'lot', value: lot }) ? then(state.find('lotIdentified', 'lot', lot)) : [];
  const same = named.flatMap((i): Step[] => (i.same === null ? [] : [{ lot: i.same, day: '' }]));
  const isOpen = lotAt(state, lot)?.type === 'vessel' && state.knows({ in: 'flow', by: 'target', value: lot });
  return [...same, ...(isOpen ? then(flowsInto(state, lot)).map((f) => ({ lot: f.source, day: f.day })) : [])];
}

/**
 * The use-by dates that a lot has to be used by: its own, that of the lot that it turned out to be, and in a vessel that of everything that went in there in
 * time. What went in past its date is in there as such, and travels with the content. Needs `standingNeeds` of the lot.
 */
export function keepsUntil(state: State, lot: string, at: string | null = null): Keeps[] {
  const found = new Map<string, Keeps>();
  const best = new Map<string, string>();
  const steps: Step[] = [{ lot, day: '' }];
  for (const step of steps) {
    const known = best.get(step.lot);
    if (known !== undefined && known <= step.day) continue;
    best.set(step.lot, step.day);
    const row = lotAt(state, step.lot);
    if (row && row.useBy !== null && step.day <= row.useBy) found.set(row.id, { lot: row.id, name: row.name, useBy: row.useBy });
    for (const next of behind(state, step.lot, at)) steps.push({ lot: next.lot, day: next.day > step.day ? next.day : step.day });
  }
  return [...found.values()];
}

/** What has to be looked for, as far as can be named now, before `keepsUntil` can be asked of a lot of which only what it comes of in this way is needed. */
export function keepsNeeds(state: State, lot: string): Need[] {
  const seen = new Set([lot]);
  const needs: Need[] = [];
  for (const one of seen) {
    needs.push({ in: 'lot', id: one }, { in: 'lotIdentified', by: 'lot', value: one });
    if (lotAt(state, one)?.type === 'vessel' && clearSince(state, one) === null) {
      const into: Need = { in: 'flow', by: 'target', value: one };
      needs.push(...(state.knows(into) ? laterNeeds(state, one) : [{ ...into, follow: 'source' } satisfies Need]));
    }
    for (const next of behind(state, one, null)) seen.add(next.lot);
  }
  return needs;
}

/**
 * Of the use-by dates that a lot has to be used by, those that are over on a day, the earliest first: the one rule for it. The day is asked for only where there
 * is any date. Needs `keepsNeeds`, or `standingNeeds` of the lot.
 */
export function pastUseBy(state: State, lot: string, day: () => string, at: string | null = null): Keeps[] {
  const keeps = keepsUntil(state, lot, at);
  if (keeps.length === 0) return keeps;
  const today = day();
  return keeps.filter((k) => k.useBy < today).sort((a, b) => (a.useBy < b.useBy || (a.useBy === b.useBy && a.lot < b.lot) ? -1 : 1));
}

/** Whether a use-by date of something else counts for a lot, so that nobody may stop looking there. */
export const keepsAsAnother = (state: State, lot: string): boolean => keepsUntil(state, lot).some((k) => k.lot !== lot);

/** A lot that something past its use-by date was put into. */
export interface UsedPast {
  readonly keeps: Keeps;
  readonly since: string;
  readonly certain: boolean;
}

/** What went into a lot past its use-by date, each lot with such a date once, with when that was first. Needs `standingNeeds` of the lot. */
export function usedPast(state: State, lot: string, at: string | null = null): UsedPast[] {
  if (!state.knows({ in: 'flow', by: 'target', value: lot })) return [];
  const found = new Map<string, UsedPast>();
  for (const f of flowsInto(state, lot).filter((f) => f.source !== lot && (at === null || f.at <= at)))
    for (const keeps of pastUseBy(state, f.source, () => f.day, at)) {
      const other = found.get(keeps.lot);
      const since = other && other.since < f.at ? other.since : f.at;
      found.set(keeps.lot, { keeps, since, certain: f.certain || (other?.certain ?? false) });
    }
  return [...found.values()];
}

/** Where `usedPast` finds what it says of a lot: the lots that went in past their dates, with what leads to them. Everything that `standingNeeds` of it names is there. */
export function useByNeeds(state: State, lot: string): Need[] {
  if (usedPast(state, lot).length === 0) return [];
  const seen = new Set(flowsInto(state, lot).map((f) => f.source));
  for (const one of seen) for (const next of behind(state, one, null)) seen.add(next.lot);
  return [...seen]
    .flatMap((one): Need[] => [
      { in: 'lot', id: one },
      { in: 'lotIdentified', by: 'lot', value: one },
      { in: 'flow', by: 'target', value: one },
      ...laterNeeds(state, one),
    ])
    .filter((need) => state.knows(need));
}

/** The concern that a lot was used past its use-by date: one, wherever that was. */
export const pastUseById = (lot: string): string => `used-past-use-by ${lot}`;
/** The lot that such a concern is about. */
export const lotUsedPast = (concern: string): string => concern.slice(pastUseById('').length);
export const pastUseByText = ({ name, useBy }: Keeps): string => `${name}, use by ${dayText(useBy)}`;

/**
 * The concerns that a deviation tells of: itself where it holds, what its use past a use-by date makes, what went in against the rule about rework, and what it says of later loads of the day, which is
 * worked out from the records as they stand. A decision that names the deviation is about all of them.
 */
export function concernsBehind(
  state: State,
  d: Pick<Row<'deviation'>, 'id' | 'type' | 'lot' | 'at' | 'subject' | 'point'>,
  at: string | null = null,
): string[] {
  const used = d.type === 'expired-lot-used' && d.lot !== null ? keepsUntil(state, d.lot, at) : [];
  const rework = d.type === 'rework-against-rule' ? [reworkId(d.subject)] : [];
  return [d.id, ...rework, ...used.map((k) => pastUseById(k.lot)), ...firstLoadIds(state, d), ...notReadIds(state, d)];
}
