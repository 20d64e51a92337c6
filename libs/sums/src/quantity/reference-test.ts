import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { judgeMean, type MeanCheck } from './mean-check.js';
import { judgeContents, planFor, type ContentsVerdict, type Plan } from './sampling-plan.js';
import { tolerableError, type Tolerable } from './tolerable-error.js';
import { nominal, tooSmall, weights } from './weights.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { shown } from '../statistics/series.js';

const lotText = 'a whole number of packs from 1 to 1,000,000';
const stage = z.object({ n: z.int(), accept: z.int(), reject: z.int() });
const meanVerdict = z.enum(['accept', 'reject', 'incomplete']).nullable();
const contentsVerdict = z.enum(['accept', 'reject', 'incomplete', 'second-sample']).nullable();

const input = z.strictObject({
  nominalGrams: nominal,
  lotSize: z.int({ error: lotText }).min(1, lotText).max(1_000_000, lotText).meta({ description: 'packs in the batch' }),
  weightsGrams: weights(1).meta({ description: 'net weight of each pack drawn, in grams, in the order drawn' }),
  destructive: z.boolean({ error: 'true when packs are opened, otherwise false' }).optional().meta({
    description: 'true when packs are opened to weigh them; false when left out',
  }),
  plan: z.enum(['single', 'double'], { error: 'single or double' }).optional().meta({
    description: 'plan for a test that opens no pack; single when left out',
  }),
});

const output = z.object({
  plan: stage
    .extend({
      kind: z.enum(['single', 'double', 'destructive', 'whole-batch']),
      second: stage.nullable().meta({ description: 'double plan: cumulative numbers after the second sample' }),
      meanSample: z.int(),
    })
    .nullable(),
  reason: z.string().nullable().meta({ description: 'why there is no plan or no verdict' }),
  tneGrams: z.number().nullable(),
  t1Grams: z.number().nullable(),
  defective: z.int().nullable().meta({ description: 'packs below T1' }),
  n: z.int().meta({ description: 'packs weighed' }),
  meanGrams: z.number(),
  s: z.number().nullable().meta({ description: 'standard deviation with n − 1, in grams; null for a single pack' }),
  t: z.number().nullable().meta({ description: 't(0.995, n − 1); null where the mean gets no allowance' }),
  meanLimitGrams: z.number().nullable(),
  printedMeanLimitGrams: z
    .number()
    .nullable()
    .meta({ description: 'the limit with the factor printed in the schedule for 20, 30 or 50 packs' }),
  verdicts: z.object({ contents: contentsVerdict, mean: meanVerdict }),
  verdict: contentsVerdict.meta({ description: 'accept only when both checks accept' }),
});

const printedOtherwise =
  'The factor as printed in the schedule (three decimals) gives the other verdict on the mean: treat it as too close to call.';
const noDestructive = 'The schedule does not apply the destructive test to batches of fewer than 100 packs.';

function together(contents: ContentsVerdict, mean: MeanCheck['verdict']): ContentsVerdict {
  if (contents === 'reject' || mean === 'reject') return 'reject';
  return contents === 'accept' ? mean : contents;
}

function explain(plan: Plan, limits: Tolerable, check: MeanCheck, defective: number, contents: ContentsVerdict): string {
  const [first, second] = plan.stages;
  const further = second === undefined ? '' : `, otherwise ${second.n} in all, ${second.accept} and ${second.reject}`;
  const numbers = `${first.n} packs, accept at ${first.accept}, reject at ${first.reject}${further}`;
  const limit = check.limit === null ? 'not set' : `${shown(check.limit)} g`;
  const how =
    check.t === null ? 'the nominal quantity itself' : `nominal − t × s/√n with t = ${shown(check.t)} and s = ${shown(check.s ?? 0)} g`;
  return (
    `Plan (${plan.paragraph}): ${numbers}. ${defective} of the packs counted are below T1, ${limits.t1.toString()} g: ${contents}. ` +
    `Mean ${shown(check.mean)} g of ${check.n} packs against ${limit} (${how}): ${check.verdict}.`
  );
}

function cautionsFor(plan: Plan | undefined, lotSize: number, check: MeanCheck): string[] {
  return [
    ...(lotSize > 10_000
      ? ['A batch is limited to 10,000 packs, unless it is the hourly output taken at the end of the line (para 2.6 and 2.7).']
      : []),
    ...(check.printedDisagrees ? [printedOtherwise] : []),
    ...(plan !== undefined && plan.kind !== 'whole-batch' && check.n > plan.meanSample
      ? [
          `The schedule takes the mean over ${plan.meanSample} packs drawn at random from the sample; here it is over all ${check.n}, with their own limit.`,
        ]
      : []),
    'Packs must be drawn at random, and the error of weighing kept within one fifth of the tolerable error (para 1.3).',
    standardCaution,
  ];
}

/** The inspector's reference test of a batch of packs. SI 2006/659 Sch. 2; the double plan also in Directive 76/211/EEC Annex II. */
export const referenceTest = defineCalculation({
  name: 'reference-test',
  title: 'Reference test of a batch of packs',
  input,
  output,
  example: { nominalGrams: 400, lotSize: 60, weightsGrams: Array.from({ length: 60 }, (_, i) => 399 + (i % 5)), destructive: false },
  run({ nominalGrams, lotSize, weightsGrams, destructive = false, plan: wanted = 'single' }) {
    if (destructive && wanted === 'double')
      return refuse('unacceptable-value', 'plan', 'single: the schedule has no double plan for destructive testing');
    const n = weightsGrams.length;
    if (n > lotSize) return refuse('unacceptable-value', 'weightsGrams', `at most ${lotSize} weights, the size of the batch`);
    const limits = tolerableError(nominalGrams);
    const plan = planFor(lotSize, destructive, wanted === 'double');
    const most = plan?.stages.at(-1)?.n ?? lotSize;
    if (n > most) return refuse('unacceptable-value', 'weightsGrams', `at most ${most} weights: the plan’s sample for this batch`);
    const reason = plan === undefined ? noDestructive : limits === undefined ? tooSmall : null;
    const check = judgeMean(weightsGrams, nominalGrams, plan);
    const judged =
      plan === undefined || limits === undefined
        ? undefined
        : { plan, limits, ...judgeContents(plan.stages, weightsGrams, limits.t1.toNumber()) };
    const [first, second] = plan?.stages ?? [];
    return {
      ok: true,
      value: {
        plan:
          plan === undefined || first === undefined
            ? null
            : { kind: plan.kind, ...first, second: second ?? null, meanSample: plan.meanSample },
        reason,
        tneGrams: limits?.tne.toNumber() ?? null,
        t1Grams: limits?.t1.toNumber() ?? null,
        defective: judged?.defective ?? null,
        n,
        meanGrams: check.mean,
        s: check.s,
        t: check.t,
        meanLimitGrams: judged === undefined ? null : check.limit,
        printedMeanLimitGrams: judged === undefined ? null : check.printed,
        verdicts: { contents: judged?.verdict ?? null, mean: judged === undefined ? null : check.verdict },
        verdict: judged === undefined ? null : together(judged.verdict, check.verdict),
        inputs: { nominalGrams, lotSize, weightsGrams, destructive, plan: wanted },
        explanation: judged === undefined ? (reason ?? '') : explain(judged.plan, judged.limits, check, judged.defective, judged.verdict),
        source:
          'Weights and Measures (Packaged Goods) Regulations 2006, SI 2006/659, Schedule 2; double plan also Directive 76/211/EEC Annex II 2.2.1',
        validRange: 'nominal quantity of 5 g and more; batches of 100 packs and more by sample, smaller ones by weighing every pack',
        cautions: cautionsFor(plan, lotSize, check),
      },
    };
  },
});
