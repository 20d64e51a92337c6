import { countText, dayText, localDay, refuse, type Refused } from '@bakehouse/kernel';
import type { Row, State } from '../base/state.js';
import { lotNames } from '../control/lot-names.js';

/**
 * What stays on hold when something is closed, of what was stated, or why it cannot be closed so: every lot that is held and undecided is stated, so that
 * nobody closes over food that they did not know of. What is stated beside that came of it as well, and is gone or was decided on already. What an earlier
 * version of the same closing stated, a correction states again.
 */
export function whatStays(
  held: readonly Row<'lot'>[],
  reached: readonly string[],
  stated: readonly string[],
  before?: readonly string[],
): Refused | { readonly ok: true; readonly lots: string[] } {
  if (before !== undefined) {
    const again = new Set([...before, ...held.map((lot) => lot.id)]);
    return { ok: true, lots: stated.filter((lot) => again.has(lot)) };
  }
  const ids = new Set(held.map((lot) => lot.id));
  const came = new Set(reached);
  const stray = stated.findIndex((lot) => !came.has(lot));
  if (stray >= 0) return refuse('not-held-by-this', `payload.staysOnHold.${stray}`, 'a lot that is held by what is closed');
  const named = new Set(stated);
  if (held.every((lot) => named.has(lot.id))) return { ok: true, lots: stated.filter((lot) => ids.has(lot)) };
  return refuse('undecided-food', 'payload.staysOnHold', `the ${countText(held.length, 'lot')} held and undecided: ${lotNames(held)}`);
}

/** That something is closed already, when and by whom. */
export function closedAlready(
  state: State,
  field: string,
  { at, closedBy }: { readonly at: string; readonly closedBy: string | null },
  zone: string,
): Refused {
  const by = closedBy === null ? undefined : state.get('person', closedBy)?.name;
  const when = dayText(localDay(at, zone));
  return refuse('already-closed', field, `what is still open: this was closed on ${when}${by === undefined ? '' : ` by ${by}`}`);
}
