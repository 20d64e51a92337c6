import { latest } from '@bakehouse/kernel';
import type { State } from '../base/state.js';

export interface WhereNow {
  readonly place: string;
  readonly name: string;
  readonly since: string;
  /** Only some of it was carried there; the rest stands where it stood. */
  readonly some: boolean;
}

/** Where a lot was last carried to, as recorded until an instant; null where nobody recorded it. Where it stands narrows no trace. */
export function movedTo(state: State, lot: string, at: string): WhereNow | null {
  const last = latest(state.find('moved', 'lot', lot).filter((m) => m.at <= at));
  return last ? { place: last.toPlace, name: last.toName, since: last.at, some: last.mg !== null || last.pieces !== null } : null;
}
