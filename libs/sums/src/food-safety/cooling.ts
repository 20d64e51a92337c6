import { refuse, type Outcome } from '@bakehouse/kernel';
import * as z from 'zod';
import { firstReading, judgeStage, type CoolingStage, type CoolingVerdict, type JudgedStage } from './cooling-stages.js';
import { celsius, only, positive, shown } from './fields.js';
import { beliefCautions, betweenReadings, echoProfile, profileSchema, type Profile } from './profile.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { changed, isFields, isShortList, type Fields } from '../spellings.js';

/** The published cooling rules, in the Code's own °C. The second limit of the cooked rule is six hours in all, not two and four. */
export const coolingRules = {
  'us-cooked': {
    source: 'FDA Food Code 3-501.14(A): 57 to 21 °C within 2 hours, and 57 to 5 °C within a total of 6 hours',
    stages: [
      { fromCelsius: 57, toCelsius: 21, withinMinutes: 120 },
      { fromCelsius: 57, toCelsius: 5, withinMinutes: 360 },
    ],
  },
  'us-from-ambient': {
    source: 'FDA Food Code 3-501.14(B): to 5 °C within 4 hours where prepared from ingredients at ambient temperature',
    stages: [{ fromCelsius: null, toCelsius: 5, withinMinutes: 240 }],
  },
} as const satisfies Record<string, { source: string; stages: readonly CoolingStage[] }>;

const stages = z
  .array(
    only({
      fromCelsius: celsius('temperature at which the stage starts').nullable(),
      toCelsius: celsius('temperature to be reached'),
      withinMinutes: positive('minutes allowed, that moment included', 527_040),
    }),
    { error: 'a list of 1 to 10 stages' },
  )
  .min(1, { error: 'at least one stage' })
  .max(10, { error: 'at most 10 stages' });

const verdict = z.enum(['pass', 'fail', 'open', 'undetermined']);
const namedRule = z.enum(['us-cooked', 'us-from-ambient']);

/**
 * Judges a profile against stages: each stage on its own clock, all of them needed. Minutes and °C. Readings before the food
 * first reaches the highest starting temperature are its cooking, not its cooling. `over`: no more readings will come.
 */
export function judgeCooling(
  whole: Profile,
  rule: readonly CoolingStage[],
  over = false,
): { verdict: CoolingVerdict; stages: JudgedStage[] } {
  const profile = whole.slice(heatedAt(whole, rule));
  const finishedAt = firstReading(profile, finalOf(rule));
  const judged = rule.map((stage) => judgeStage(profile, stage, finishedAt, over));
  const worst = (['fail', 'undetermined', 'open'] as const).find((v) => judged.some((stage) => stage.verdict === v));
  return { verdict: worst ?? 'pass', stages: judged };
}

/** The temperature at which cooling is done: the lowest end. */
const finalOf = (rule: readonly CoolingStage[]): number => rule.reduce((low, stage) => Math.min(low, stage.toCelsius), Infinity);

/** Where every stage starts from above: null from a rule that starts at the first reading. */
function startOf(rule: readonly CoolingStage[]): number | null {
  return rule.reduce<number | null>(
    (high, { fromCelsius }) => (high === null || fromCelsius === null ? null : Math.max(high, fromCelsius)),
    -Infinity,
  );
}

function heatedAt(profile: Profile, rule: readonly CoolingStage[]): number {
  const start = startOf(rule);
  return start === null
    ? 0
    : Math.max(
        0,
        profile.findIndex((point) => point.celsius >= start),
      );
}

/** Stages inside the rule, or beside the word "stages"; a stage without a start begins at the first reading. */
function alsoReads(raw: Fields): Fields {
  const { rule, ...rest } = raw;
  const inside = isFields(rule) && Object.keys(rule).length === 1 && 'stages' in rule ? { ...raw, rule: rule.stages } : raw;
  const found = rule === 'stages' && 'stages' in rest ? rest : inside;
  const started = (list: unknown): unknown =>
    isShortList(list) ? list.map((stage) => (isFields(stage) ? { fromCelsius: null, ...stage } : stage)) : list;
  return changed(changed(found, 'rule', started), 'stages', started);
}

const input = only({
  profile: profileSchema(1),
  rule: z
    .union([namedRule, stages], { error: 'us-cooked, us-from-ambient, or a list of stages { fromCelsius, toCelsius, withinMinutes }' })
    .optional(),
  stages: stages.optional(),
  finished: z
    .boolean()
    .optional()
    .meta({ description: 'true where no more readings will come; otherwise cooling is taken as still going on' }),
});

export const cooling = defineCalculation({
  name: 'cooling',
  title: 'Cooling against a time-temperature rule',
  input,
  output: z.object({
    verdict,
    stages: z.array(
      z.object({
        fromCelsius: z.number().nullable(),
        toCelsius: z.number(),
        withinMinutes: z.number(),
        verdict,
        observedMinutes: z.number().nullable(),
        reached: z.boolean(),
        startSeen: z.boolean(),
        rewarmed: z.boolean(),
      }),
    ),
  }),
  example: {
    profile: [
      { minutes: 0, celsius: 57 },
      { minutes: 60, celsius: 21 },
      { minutes: 360, celsius: 5 },
    ],
    rule: 'us-cooked',
  },
  alsoReads,
  run(given) {
    const chosen = ruleOf(given);
    if (!chosen.ok) return chosen;
    const { rule, source } = chosen.value;
    const answer = judgeCooling(given.profile, rule, given.finished);
    return {
      ok: true,
      value: {
        ...answer,
        inputs: {
          profile: echoProfile(given.profile),
          rule: typeof given.rule === 'string' ? given.rule : rule,
          finished: given.finished ?? false,
        },
        explanation: answer.stages.map(sentence).join(' '),
        source,
        validRange: null,
        cautions: cautionsFor(given.profile, rule, answer.stages),
      },
    };
  },
});

function ruleOf(given: z.output<typeof input>): Outcome<{ rule: readonly CoolingStage[]; source: string }> {
  const { rule } = given;
  if ((rule === undefined) === (given.stages === undefined)) {
    return refuse('unacceptable-value', 'rule', 'one of: us-cooked, us-from-ambient, or a list of stages');
  }
  if (typeof rule === 'string') return { ok: true, value: { rule: coolingRules[rule].stages, source: coolingRules[rule].source } };
  const own = rule ?? given.stages ?? [];
  const backwards = own.findIndex((stage) => stage.fromCelsius !== null && stage.toCelsius >= stage.fromCelsius);
  if (backwards !== -1) {
    const field = `${rule === undefined ? 'stages' : 'rule'}.${backwards}.toCelsius`;
    return refuse('unacceptable-value', field, `a temperature below ${own[backwards]?.fromCelsius} °C, where the stage starts`);
  }
  return { ok: true, value: { rule: own, source: 'The stages as given; each minute limit includes its end' } };
}

const outcome = { pass: 'passed', fail: 'failed', open: 'still open', undetermined: 'cannot be decided' } as const satisfies Record<
  CoolingVerdict,
  string
>;

function sentence(stage: JudgedStage): string {
  const name =
    stage.fromCelsius === null ? `From the first reading to ${stage.toCelsius} °C` : `From ${stage.fromCelsius} to ${stage.toCelsius} °C`;
  if (stage.observedMinutes === null) {
    return `${name}: ${outcome[stage.verdict]}, the food has not fallen below ${stage.fromCelsius} °C, so the clock has not started.`;
  }
  const time = stage.reached
    ? `reached after ${shown(stage.observedMinutes, 6)} min`
    : `not reached ${shown(stage.observedMinutes, 6)} min after the start`;
  const unseen = stage.startSeen
    ? ''
    : ` It was already below ${stage.fromCelsius} °C at the first reading, so the real time is longer by an unknown amount.`;
  return `${name}: ${outcome[stage.verdict]}, ${time}, ${shown(stage.withinMinutes)} min allowed.${unseen}`;
}

const warmedAgain =
  'The food warmed above a stage’s end temperature again while cooling: that stage counts until it was back below for good.';

function cautionsFor(whole: Profile, rule: readonly CoolingStage[], judged: readonly JudgedStage[]): string[] {
  const [start, final, heated] = [startOf(rule), finalOf(rule), heatedAt(whole, rule)];
  const profile = whole.slice(heated);
  const cooled = firstReading(profile, final);
  const warmedAfter = (profile[cooled]?.celsius ?? Infinity) <= final && profile.some((point, i) => i > cooled && point.celsius > final);
  const fell = start === null ? -1 : profile.findIndex((point) => point.celsius < start);
  const rose = start !== null && fell !== -1 && profile.some((point, i) => i > fell && point.celsius >= start);
  return [
    standardCaution,
    'The readings must be of the warmest part of the food, not of the air.',
    betweenReadings,
    ...(heated > 0 ? [`The readings before the food first reached ${start} °C were taken as its cooking and left out.`] : []),
    ...(rose
      ? [`The food rose to ${start} °C again. The clock was not restarted: after a proper reheating, begin the profile at its end.`]
      : []),
    ...(judged.some((stage) => stage.rewarmed) ? [warmedAgain] : []),
    ...(warmedAfter ? [`After cooling, the food was above ${final} °C again: judge that by the holding rule.`] : []),
    ...beliefCautions(whole),
  ];
}
