import type { MaterialKey } from '../data/materials.js';
import type { Batch } from './kitchen.js';

/** What one day of the story hands on to the next. */
export interface Carried {
  /** The starter tub's content, and yesterday's old dough. */
  leaven: string;
  oldDough: string | null;
  crumb: { lot: string; left: number };
  /** Loaves in the retarder, to be baked in the morning. */
  loaves: { make: string; run: string } | null;
  /** What is there to go out, the oldest first. */
  shelf: Batch[];
  /** The last egg wash, and the white doughs so far with the flour that was open. */
  wash: string | null;
  whites: { readonly batch: Batch; readonly flour: string | null; readonly date: string }[];
  /** Readings of white dough that was too warm, until somebody finds out why. */
  tooWarm: string[];
}

/** Batches of a product that are there, the newest first. */
export const onShelf = ({ shelf }: Carried, product: MaterialKey): Batch[] =>
  shelf.filter((b) => b.product === product && b.left > 0).reverse();
