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

/** What something passed through, each time in with its time out, in order. */
export function stagesOf({ state, at }: Lookup, subject: string): StageView[] {
  const rows = inOrder(state.find('stage', 'subject', subject));
  return rows.flatMap((row, i): StageView[] => {
    const placeName = row.place === null ? null : (state.get('place', row.place)?.name ?? null);
    const view = { step: row.step, place: row.place, placeName, from: row.at };
    if (row.way === 'once') return [{ ...view, to: row.at, seconds: null }];
    if (row.way === 'out') return startedBefore(rows, i) ? [] : [{ ...view, to: row.at, seconds: null }];
    const next = rows.slice(i + 1).find((later) => later.step === row.step && later.way !== 'once');
    const to = next?.way === 'out' ? next.at : null;
    return [{ ...view, to, seconds: secondsBetween(row.at, to ?? at) }];
  });
}

/** Whether the time before this one, of the same step, was a time in. */
function startedBefore(rows: readonly Row<'stage'>[], i: number): boolean {
  return rows.slice(0, i).findLast((r) => r.step === rows[i]?.step && r.way !== 'once')?.way === 'in';
}
