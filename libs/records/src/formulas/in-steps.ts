import { convertExact } from '@bakehouse/kernel';
import { apportion } from '@bakehouse/sums';
import type { FormulaContent } from '../rows/formula-content.js';

/** What scales are read to, by the unit that is weighed in. */
export const scaleSteps = { g: ['0.01', '0.1', '1', '5'], oz: ['0.01', '0.1', '1'] } as const;
export type WeighedIn = keyof typeof scaleSteps;

/** A formula as it is weighed out: figures in one unit, whole steps of a scale. */
export interface InSteps {
  readonly total: string;
  readonly lines: readonly string[];
  /** Whether a line that is something came to nothing at this step. */
  readonly vanished: boolean;
}

/**
 * A formula at an amount in milligrams, in whole steps of the scale: the lines sum to the total exactly, each less than a step from its exact share,
 * and the total is within half a step of what was wanted. The ounce is exact (NIST SP 811).
 */
export function inSteps({ lines }: Pick<FormulaContent, 'lines'>, mg: number, unit: WeighedIn, step: string): InSteps {
  const units = convertExact(String(mg), 'mg', unit).div(step).toDecimalPlaces(0).toNumber();
  const shares = apportion(
    units,
    lines.map((line) => ({ num: BigInt(line.mg), den: 1n })),
  );
  const places = step.split('.')[1]?.length ?? 0;
  const figure = (share: number): string => (share * Number(step)).toFixed(places);
  return { total: figure(units), lines: shares.map(figure), vanished: lines.some((line, i) => line.mg > 0 && shares[i] === 0) };
}
