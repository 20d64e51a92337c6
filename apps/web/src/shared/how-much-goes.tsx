import { countText } from '@bakehouse/kernel';
import type { Measure } from '@bakehouse/records';
import { AmountPad, unitsName, type AmountTyped, type AmountUnit } from './amount-pad';
import { mass } from './format';

/** How much of a lot is left by the records, as it is shown beside the decision; null where they cannot say. */
export interface LeftThere {
  readonly amount: number | null;
  readonly measure: Measure;
}

const shown = ({ amount, measure }: LeftThere): string => (measure === 'mg' ? mass(amount) : countText(amount ?? 0, 'piece'));

/** What an amount is typed in: first the unit in which what is left is shown, so that the figure beside it can be typed as it stands. */
export function unitsBeside(left: LeftThere, units: readonly AmountUnit[]): readonly AmountUnit[] {
  if (left.measure === 'pieces') return units;
  const inGrams = left.amount !== null && !shown(left).endsWith('kg');
  return inGrams ? ['g', ...units] : [...units, 'g'];
}

/** What is asked once more before an amount is signed that is more than is left; undefined where it is not more, or nobody can say. */
export function moreThanLeft(
  { quantity }: Pick<AmountTyped, 'quantity'>,
  left: LeftThere,
  densityMgPerMl: number | null,
): string | undefined {
  if (quantity === null || left.amount === null) return undefined;
  const each = { piece: 1, g: 1_000, kg: 1_000_000, l: densityMgPerMl === null ? null : densityMgPerMl * 1_000 }[quantity.unit];
  if (each === null || Math.round(Number(quantity.figure) * each) <= Math.max(0, left.amount)) return undefined;
  return `More than is left: ${left.amount > 0 ? shown(left) : 'nothing'} by the records, and you typed ${typedText({ quantity })}. Is that right?`;
}

/** An amount as it was typed; left empty it is all of it. */
export const typedText = ({ quantity }: Pick<AmountTyped, 'quantity'>): string =>
  quantity === null ? 'all of it' : `${quantity.figure} ${unitsName(quantity.unit)}`;

/** How much a decision takes out of the house. It is booked out with the decision, and a second record of it would take it off twice. */
export function HowMuchGoes({ amount, left }: { readonly amount: AmountTyped; readonly left: LeftThere }) {
  return (
    <>
      {left.amount === null || left.amount < 0 ? null : <p>Left by the records: {shown(left)}</p>}
      <AmountPad label="How much of it? Leave it empty for all of it" amount={amount} />
      <p className="hint">It leaves the house with this decision. Do not record it under Send out as well.</p>
    </>
  );
}
