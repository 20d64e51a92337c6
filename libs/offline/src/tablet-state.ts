import type { Snapshot, State } from '@bakehouse/records';
import type { ProjectedVerdict } from './replay/optimistic.js';
import type { Damage } from './store/counts.js';
import type { SavedEntry } from './store/saved-entry.js';

/** The site whose night this is. */
export interface NightSite {
  readonly id: string;
  readonly organisation: string;
  readonly name: string;
  readonly zone: string;
  readonly dayStarts: string;
}

/** All that a screen needs to know of the device, as of one moment. */
export interface TabletState {
  readonly site: NightSite;
  readonly day: string;
  /** Rows with everything that this device saved on top. */
  readonly snapshot: Snapshot;
  readonly rows: State;
  /** When the server's rows were as they are here; null before the first ones came. */
  readonly asOf: string | null;
  /** Null until it was tried. */
  readonly connected: boolean | null;
  /** Newer rows are being fetched, and none came since this was opened, or those here are old: what is not shown may be there all the same. */
  readonly loading: boolean;
  readonly pending: readonly SavedEntry[];
  readonly refused: readonly SavedEntry[];
  /** The recent entries of this device, the newest first, with their state. */
  readonly recent: readonly SavedEntry[];
  readonly verdicts: ReadonlyMap<string, ProjectedVerdict>;
  readonly needsSignOn: readonly string[];
  readonly damage: readonly Damage[];
  readonly clockErrorMs: number | null;
  /** How many older lots that may still be here this device does not hold. */
  readonly leftOut: number;
  /** How many entries the books held at `asOf`. */
  readonly sizes: readonly { readonly book: string; readonly name: string; readonly size: number }[];
}
