import * as z from 'zod';
import { exactSum, tolerableError, type Exact, type Tolerable } from './tolerable-error.js';
import { nominal, tooSmall, weights } from './weights.js';
import { defineCalculation, standardCaution } from '../calculation.js';

const packersRule = z.object({
  rule: z.enum(['average', 'not-more-than-2.5-percent-below-t1', 'none-below-t2']),
  requirement: z.string(),
  observed: z
    .number()
    .nullable()
    .meta({ description: 'grams for the average, a number of packs for the others; null when nothing was weighed' }),
  verdict: z.enum(['pass', 'fail']).nullable().meta({ description: 'null when nothing was weighed or the rule does not apply' }),
});
type PackersRule = z.infer<typeof packersRule>;

interface Found {
  readonly mean: Exact;
  readonly belowT1: number;
  readonly belowT2: number;
}

function weigh(grams: readonly number[], { t1, t2 }: Tolerable): Found {
  const [first, second] = [t1.toNumber(), t2.toNumber()];
  let [belowT1, belowT2] = [0, 0];
  for (const weight of grams) {
    if (weight < first) belowT1 += 1;
    if (weight < second) belowT2 += 1;
  }
  return { mean: exactSum(grams).div(grams.length), belowT1, belowT2 };
}

const judged = (kept: boolean): 'pass' | 'fail' => (kept ? 'pass' : 'fail');

function rulesOf(nominalGrams: number, limits: Tolerable | undefined, found: Found | undefined, n: number): PackersRule[] {
  return [
    {
      rule: 'average',
      requirement: `the mean is not less than ${nominalGrams} g`,
      observed: found === undefined ? null : found.mean.toNumber(),
      verdict: found === undefined ? null : judged(found.mean.gte(nominalGrams)),
    },
    {
      rule: 'not-more-than-2.5-percent-below-t1',
      requirement: `at most 2.5 % of packs are below ${limits?.t1.toString() ?? 'T1'} g`,
      observed: found?.belowT1 ?? null,
      verdict: found === undefined ? null : judged(found.belowT1 * 40 <= n),
    },
    {
      rule: 'none-below-t2',
      requirement: `no pack is below ${limits?.t2.toString() ?? 'T2'} g`,
      observed: found?.belowT2 ?? null,
      verdict: found === undefined ? null : judged(found.belowT2 === 0),
    },
  ];
}

function explain(nominalGrams: number, limits: Tolerable | undefined, found: Found | undefined, n: number): string {
  if (limits === undefined) return tooSmall;
  const start =
    `For ${nominalGrams} g the tolerable negative error is ${limits.tne.toString()} g (${limits.how}); ` +
    `T1 is ${limits.t1.toString()} g and T2 ${limits.t2.toString()} g.`;
  if (found === undefined) return `${start} No weights were given, so the three rules are not judged.`;
  return `${start} Of ${n} packs the mean is ${found.mean.toDecimalPlaces(4).toString()} g, ${found.belowT1} are below T1 and ${found.belowT2} below T2.`;
}

/** Tolerable negative error and the packers' three rules. SI 2006/659; Directive 76/211/EEC Annex I. */
export const averageQuantity = defineCalculation({
  name: 'average-quantity',
  title: 'Average quantity: tolerable error and the packers’ three rules',
  input: z.strictObject({ nominalGrams: nominal, weightsGrams: weights(1).optional() }),
  output: z.object({
    tneGrams: z.number().nullable(),
    t1Grams: z.number().nullable(),
    t2Grams: z.number().nullable(),
    reason: z.string().nullable().meta({ description: 'why a figure is null' }),
    meanGrams: z.number().nullable(),
    rules: z.array(packersRule),
    verdict: z.enum(['pass', 'fail']).nullable().meta({ description: 'pass when all three rules are kept' }),
  }),
  example: { nominalGrams: 400, weightsGrams: [402, 399.5, 401, 404.2, 398.9] },
  run({ nominalGrams, weightsGrams }) {
    const limits = tolerableError(nominalGrams);
    const found = limits === undefined || weightsGrams === undefined ? undefined : weigh(weightsGrams, limits);
    const rules = rulesOf(nominalGrams, limits, found, weightsGrams?.length ?? 0);
    return {
      ok: true,
      value: {
        tneGrams: limits?.tne.toNumber() ?? null,
        t1Grams: limits?.t1.toNumber() ?? null,
        t2Grams: limits?.t2.toNumber() ?? null,
        reason:
          limits === undefined ? tooSmall : found === undefined ? 'No weights were given, so the mean and the verdicts are null.' : null,
        meanGrams: found?.mean.toNumber() ?? null,
        rules,
        verdict: found === undefined ? null : judged(rules.every(({ verdict }) => verdict === 'pass')),
        inputs: { nominalGrams, weightsGrams: weightsGrams ?? null },
        explanation: explain(nominalGrams, limits, found, weightsGrams?.length ?? 0),
        source: 'Weights and Measures (Packaged Goods) Regulations 2006, SI 2006/659; Directive 76/211/EEC Annex I',
        validRange: 'nominal quantity of 5 g and more, packed in constant quantities',
        cautions: [
          'The rules are for whole batches: a sample only estimates whether the batch keeps them; reference-test says how an inspector would judge it.',
          ...(nominalGrams > 25_000
            ? ['The regulations are understood to stop at 25 kg (from memory): confirm that they apply to this pack.']
            : []),
          standardCaution,
        ],
      },
    };
  },
});
