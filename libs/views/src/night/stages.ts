import { inOrder, secondsBetween } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

export interface StageView {
  readonly step: Row<'stage'>['step'];
  readonly place: string | null;
  readonly placeName: string | null;
  readonly from: string;
  /** Null while it is still in. */
  readonly to: string | null;
  /** Elapsed seconds, up to now while it is still in; null for what happens once. */
  readonly seconds: number | null;
}

/** What something passed through, each time in with its time out, in order: said by somebody, or by what happened to it after. */
export function stagesOf(lookup: Lookup, subject: string): StageView[] {
  const { state, at } = lookup;
  const rows = inOrder(state.find('stage', 'subject', subject).filter((r) => r.at <= at));
  const left = leftAt(lookup, subject);
  return rows.flatMap((row, i): StageView[] => {
    const placeName = row.place === null ? null : (state.get('place', row.place)?.name ?? null);
    const view = { step: row.step, place: row.place, placeName, from: row.at };
    if (row.way === 'once') return [{ ...view, to: row.at, seconds: null }];
    if (row.way === 'out') return startedBefore(rows, i) ? [] : [{ ...view, to: row.at, seconds: null }];
    const after = rows.slice(i + 1);
    const next = after.find((later) => later.step === row.step && later.way !== 'once');
    const to = next ? (next.way === 'out' ? next.at : null) : endedAt(row, after, left);
    return [{ ...view, to, seconds: secondsBetween(row.at, to ?? at) }];
  });
}

/** What keeps pieces in one place: into the next of these, they are out of the one before. */
const places: readonly Row<'stage'>['step'][] = ['prove', 'retard', 'cool', 'freeze'];

/** When a time in ended that nobody said the end of: it went on into another such place, or left for the oven or the bench. Null while nothing says so. */
function endedAt(row: Row<'stage'>, after: readonly Row<'stage'>[], left: string | null): string | null {
  const on = places.includes(row.step) ? after.find((later) => later.way === 'in' && places.includes(later.step))?.at : undefined;
  const ends = [on ?? null, left !== null && left > row.at ? left : null].flatMap((end) => end ?? []);
  return ends.sort()[0] ?? null;
}

/** When the last of a run's pieces went into an oven, or a dough was made up; null while some wait. */
function leftAt({ state, at }: Lookup, subject: string): string | null {
  const divided = inOrder(state.find('divided', 'make', subject).filter((d) => d.at <= at))[0];
  if (divided) return divided.at;
  const run = state.get('run', subject);
  if (run === undefined) return null;
  const lines = inOrder(state.find('loadLine', 'run', subject).filter((l) => l.at <= at));
  const loaded = lines.reduce((sum, l) => sum + l.pieces, 0);
  return loaded >= run.pieces ? (lines.at(-1)?.at ?? null) : null;
}

/** Whether the time before this one, of the same step, was a time in. */
function startedBefore(rows: readonly Row<'stage'>[], i: number): boolean {
  return rows.slice(0, i).findLast((r) => r.step === rows[i]?.step && r.way !== 'once')?.way === 'in';
}
