import { countedInPieces, densityOfLot } from '@bakehouse/records';
import type { Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { Choice, figureOf, NumberPad } from '../ui';

export type AmountUnit = 'piece' | 'kg' | 'g' | 'l';
const called: Readonly<Record<AmountUnit, string>> = { piece: 'pieces', kg: 'kg', g: 'g', l: 'litres' };
export const unitsName = (unit: AmountUnit): string => called[unit];

/** What an amount of a lot is typed in: pieces, or a weight, or else a volume where the density of its material is known. */
export function unitsOf({ state, at }: Pick<Lookup, 'state' | 'at'>, id: string | null): readonly AmountUnit[] {
  const lot = id === null ? undefined : state.get('lot', id);
  if (lot && countedInPieces(lot)) return ['piece'];
  return lot && densityOfLot(state, lot, at) !== null ? ['kg', 'l'] : ['kg'];
}

/** An amount while it is being typed. Where the units change under it, as for another lot, the first of them is taken. */
export function useAmount(units: readonly AmountUnit[], was: { readonly figure: string; readonly unit: AmountUnit } | null = null) {
  const [typed, setTyped] = useState(was?.figure ?? '');
  const [chosen, setUnit] = useState<AmountUnit | null>(was?.unit ?? null);
  const unit = units.find((u) => u === chosen) ?? units[0] ?? 'kg';
  const figure = figureOf(typed);
  return { typed, setTyped, units, unit, setUnit, quantity: figure === undefined ? null : { figure, unit } };
}
export type AmountTyped = ReturnType<typeof useAmount>;

/** How much, in pieces, by weight or by volume. */
export function AmountPad({ label, amount }: { readonly label: string; readonly amount: AmountTyped }) {
  const pieces = amount.unit === 'piece';
  return (
    <>
      {amount.units.length < 2 ? null : (
        <Choice
          label="Measured in"
          value={amount.unit}
          onChange={amount.setUnit}
          options={amount.units.map((u) => ({ value: u, text: unitsName(u) }))}
        />
      )}
      <NumberPad
        label={label}
        unit={unitsName(amount.unit)}
        decimals={!pieces}
        {...(pieces ? { maxDigits: 5 } : {})}
        value={amount.typed}
        onChange={amount.setTyped}
      />
    </>
  );
}
