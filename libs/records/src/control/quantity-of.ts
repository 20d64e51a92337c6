import { amountOf, dimensionOf, refuse, type Observed, type Outcome } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { specificationAt } from './specification-at.js';

const isVolume = (quantity: Observed | null): boolean => quantity !== null && dimensionOf(quantity.unit) === 'volume';

/** What has to be looked for before `quantityOf` can be asked about these lots, which are there themselves: only a volume needs more. */
export function quantityNeeds(state: State, quantity: Observed | null, lots: readonly string[]): Need[] {
  if (!isVolume(quantity)) return [];
  const all = new Set(lots.flatMap((lot) => state.get('lot', lot)?.material ?? []));
  return [...all].map((material) => ({ in: 'specification', by: 'material', value: material }));
}

/**
 * The canonical amount of what was weighed, measured or counted of a lot, or of any of several: a volume by the density of their material. Where that is not
 * known, or not the same of them all, a volume is refused.
 */
export function quantityOf(
  state: State,
  quantity: Observed | null,
  of: { readonly lots: readonly (Row<'lot'> | undefined)[]; readonly at: string },
  field: string,
): ReturnType<typeof amountOf> {
  if (!isVolume(quantity)) return amountOf(quantity, { densityMgPerMl: null }, field);
  const density = densityOf(state, of.lots, of.at, field);
  return density.ok ? amountOf(quantity, { densityMgPerMl: density.value }, field) : density;
}

function densityOf(state: State, lots: readonly (Row<'lot'> | undefined)[], at: string, field: string): Outcome<number | null> {
  const densities = [...new Set(lots.map((lot) => (lot ? densityOfLot(state, lot, at) : null)))];
  if (densities.includes(null)) return { ok: true, value: null };
  return densities.length > 1
    ? refuse('unacceptable-value', field, 'a weight: these lots have different densities')
    : { ok: true, value: densities[0] ?? null };
}

/**
 * What a millilitre of a lot weighs, or null where nobody said: by the specification that it came with, or else the one of its material that is in force,
 * since a later one may have added the density. Needs `specification` by `material`.
 */
export function densityOfLot(state: State, lot: Row<'lot'>, at: string): number | null {
  const own = state.find('specification', 'material', lot.material).find((s) => s.id === lot.specification);
  return own?.densityMgPerMl ?? specificationAt(state, lot.material, at, lot.supplier)?.densityMgPerMl ?? null;
}
