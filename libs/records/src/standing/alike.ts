/** A lot by what its pack says: two with the same code of the same material may be one lot of the supplier's. */
export interface Coded {
  readonly id: string;
  readonly material: string;
  /** The code that it is known by now: on the pack, or given later. */
  readonly code: string | null;
}

const spacesAndDashes = /[\s‐‑‒–—―−﹘﹣－-]/gu;

/** A code without what people write in more than one way: capitals, spaces and dashes. `lot_code_key` in the database gives the same. */
export const lotCodeKey = (code: string): string => code.replace(spacesAndDashes, '').replace(/[A-Z]/g, (letter) => letter.toLowerCase());

/**
 * Whether two lots may be one lot of the supplier's, delivered more than once or recorded without knowing that it was there: the same code, of the same material. From
 * whom it came makes no difference: the maker's code goes along, and a supplier is often not recorded.
 */
export function isAlike(a: Coded, b: Coded): boolean {
  if (a.id === b.id || a.material !== b.material || a.code === null || b.code === null) return false;
  const key = lotCodeKey(a.code);
  return key !== '' && key === lotCodeKey(b.code);
}
