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

/** The same of a code that there may be none of, or that has nothing else in it: by it lots that are alike are looked up, at the door and on a device. */
export const codeKeyOf = (code: string | null): string | null => (code === null ? null : lotCodeKey(code) || null);

/**
 * Whether two lots may be one lot of the supplier's, delivered more than once or recorded without knowing that it was there: the same code, of the same material. From
 * whom it came makes no difference: the maker's code goes along, and a supplier is often not recorded.
 */
export function isAlike(a: Coded, b: Coded): boolean {
  if (a.id === b.id || a.material !== b.material) return false;
  const key = codeKeyOf(a.code);
  return key !== null && key === codeKeyOf(b.code);
}
