import { defineCalculation } from '@bakehouse/sums';
import * as z from 'zod';
import { checkDigitFits, checkDigitOf } from './check-digit.js';
import { codeCaution } from './input.js';

const keysByLength: Readonly<Record<number, string>> = {
  7: 'GTIN-8',
  11: 'GTIN-12',
  12: 'GTIN-13, GLN or the number part of a GDTI, GCN or GRAI',
  13: 'GTIN-14',
  16: 'GSIN',
  17: 'SSCC or GSRN',
};
const lengths = 'digits of a key without its check digit: 7, 11, 12, 13, 16 or 17 of them';

/** GS1 check digit of a key. GS1 General Specifications, check digit calculation. */
export const gs1CheckDigit = defineCalculation({
  name: 'gs1-check-digit',
  title: 'GS1 check digit',
  input: z.strictObject({
    key: z
      .string({ error: lengths })
      .regex(/^\d+$/, { error: lengths })
      .refine((key) => key.length in keysByLength, { error: lengths })
      .meta({ description: 'the key without its check digit' }),
  }),
  output: z.object({
    digit: z.int().min(0).max(9),
    complete: z.string().meta({ description: 'the key with its check digit' }),
    keys: z.string().meta({ description: 'what a key of this length can be' }),
  }),
  example: { key: '629104150021' },
  run({ key }) {
    const digit = checkDigitOf(key);
    const terms = [...key].map((figure, i) => `${figure}×${(key.length - i) % 2 === 1 ? 3 : 1}`).join(' + ');
    const sum = [...key].reduce((total, figure, i) => total + Number(figure) * ((key.length - i) % 2 === 1 ? 3 : 1), 0);
    const looksComplete = key.length !== 7 && checkDigitFits(key);
    return {
      ok: true,
      value: {
        digit,
        complete: `${key}${digit}`,
        keys: keysByLength[key.length] ?? '',
        inputs: { key },
        explanation: `Weights 3 and 1 by turns from the right: ${terms} = ${sum}; ${digit} more makes ${sum + digit}, a multiple of ten.`,
        source: 'GS1 General Specifications, standard check digit calculation for GS1 data structures',
        validRange:
          'Keys of 7, 11, 12, 13, 16 or 17 digits before the check digit. It finds every single wrong digit; of swapped neighbours, not all.',
        cautions: [
          codeCaution,
          ...(looksComplete
            ? ['The last digit given already fits as a check digit of those before it: give the key without its check digit.']
            : []),
        ],
      },
    };
  },
});
