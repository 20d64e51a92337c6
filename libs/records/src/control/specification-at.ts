import type { Row, State } from '../base/state.js';
import { firstOf, inForce } from './in-force.js';

/**
 * The specification of a material in force at an instant; the earliest where the instant is before them all. A supplier's own comes before
 * one that names no supplier, and that before another supplier's. Needs `specification` by `material`.
 */
export function specificationAt(
  state: State,
  material: string,
  at: string,
  supplier: string | null = null,
): Row<'specification'> | undefined {
  const all = [...state.find('specification', 'material', material)].sort((a, b) => (a.id < b.id ? -1 : 1));
  const ranked = supplier === null ? [all] : [all.filter((s) => s.supplier === supplier), all.filter((s) => s.supplier === null), all];
  return ranked.map((some) => inForce(some, at)).find((s) => s !== undefined) ?? firstOf(all);
}
