import * as z from 'zod';
import { between, only } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

export type ControlResult = 'not-needed' | 'assess';

/**
 * The two tables of FDA Food Code 1-201.10: A for food heat-treated and then packaged, B for all other food. A figure on the
 * border of two bands belongs to the band that the Code prints with it: "≤ 0.92", "> 0.92 – 0.95", "4.2 – 4.6", "> 4.6 – 5.0".
 */
export function controlNeeded(ph: number, waterActivity: number, table: 'A' | 'B'): ControlResult {
  const [row, column] =
    table === 'A'
      ? [band(waterActivity, [0.92, 0.95], []), band(ph, [4.6, 5.6], [])]
      : [band(waterActivity, [0.9, 0.92], [0.88]), band(ph, [4.6, 5], [4.2])];
  const assessFrom = table === 'A' ? [3, 2, 1] : [4, 3, 2, 1]; // the first column that needs assessment, row by row
  return column < (assessFrom[row] ?? 0) ? 'not-needed' : 'assess';
}

/** Which band a figure is in: `passed` are upper ends that still belong to the lower band, `reached` are lower ends that belong to the upper one. */
function band(figure: number, passed: readonly number[], reached: readonly number[]): number {
  return passed.filter((end) => figure > end).length + reached.filter((end) => figure >= end).length;
}

const treat = 'treat as controlled until assessed' as const;

export const temperatureControlNeeded = defineCalculation({
  name: 'temperature-control-needed',
  title: 'Does a food need time and temperature control for safety?',
  input: only({
    ph: between('pH', 0, 14),
    waterActivity: between('water activity', 0, 1),
    heatTreatedThenPackaged: z.boolean({ error: 'true where the food was heat-treated and packaged afterwards, otherwise false' }),
  }),
  output: z.object({
    table: z.enum(['A', 'B']),
    result: z.enum(['not-needed', 'assess']),
    treatAsControlled: z.boolean(),
    advice: z.enum([treat]).nullable(),
  }),
  example: { ph: 6.5, waterActivity: 0.97, heatTreatedThenPackaged: false },
  run(given) {
    const table: 'A' | 'B' = given.heatTreatedThenPackaged ? 'A' : 'B';
    const result = controlNeeded(given.ph, given.waterActivity, table);
    const advice: typeof treat | null = result === 'assess' ? treat : null;
    const food = table === 'A' ? 'heat-treated and then packaged' : 'not heat-treated, or not packaged after it';
    const found =
      result === 'assess' ? `a product assessment is required: ${treat}.` : 'the table does not ask for time and temperature control.';
    return {
      ok: true,
      value: {
        table,
        result,
        treatAsControlled: result === 'assess',
        advice,
        inputs: { ...given },
        explanation: `For food ${food} (table ${table}), pH ${given.ph} with water activity ${given.waterActivity}: ${found}`,
        source: 'FDA Food Code 1-201.10, definition of time/temperature control for safety food, tables A and B',
        validRange:
          'One homogeneous food: not cream against pastry, a filling against its shell, or a food whose pH or water activity still changes.',
        cautions: [
          standardCaution,
          'Figures are those of the finished food as measured, with the uncertainty of the measurement kept on the safe side of a border.',
          ...(table === 'A'
            ? ['Table A holds only where the heat destroyed vegetative cells and the package keeps them out afterwards.']
            : []),
        ],
      },
    };
  },
});
