import * as z from 'zod';
import { only, shown } from './fields.js';
import { timeOutside, type OutsideTime } from './holding-periods.js';
import { temperatureRules, timeRules, type HoldingRule, type TimeRule } from './holding-rules.js';
import {
  beliefCautions,
  betweenReadings,
  echoProfile,
  exactMinutes,
  isLessThan,
  isWithin,
  profileSchema,
  temperatureRange,
  type Profile,
} from './profile.js';
import { defineCalculation, standardCaution, type Explained } from '../calculation.js';

export interface HoldingJudgement {
  readonly verdict: 'pass' | 'fail';
  readonly longestMinutesOutside: number;
  readonly totalMinutesOutside: number;
  readonly periodsOutside: number;
  readonly minutesSinceStart: number;
  readonly defenceCouldApply: boolean;
  readonly defenceConditions: string[];
}

/** Judges a profile by a rule that holds at every moment, and whether a defence could apply: one period, shorter than its limit. */
export function judgeTemperatureRule(profile: Profile, rule: HoldingRule): HoldingJudgement {
  const outside = timeOutside(profile, rule.outside);
  const { defence } = rule;
  const could = defence !== null && outside.periods === 1 && isLessThan(outside.longest, defence.lessThanMinutes);
  return {
    verdict: outside.periods === 0 ? 'pass' : 'fail',
    ...figures(profile, outside),
    defenceCouldApply: could,
    defenceConditions: [...(defence?.conditions ?? [])],
  };
}

/** Judges a profile by a rule of time alone, its first reading being the moment the food left temperature control. */
export function judgeTimeRule(profile: Profile, rule: TimeRule): HoldingJudgement & { failings: string[] } {
  const failings: string[] = [];
  const first = profile[0]?.celsius ?? NaN;
  const { coldAtMost, hotAtLeast } = rule.start;
  if (!(first <= coldAtMost || (hotAtLeast !== null && first >= hotAtLeast))) {
    failings.push(
      `it started at ${first} °C, not at ${coldAtMost} °C or below${hotAtLeast === null ? '' : ` or at ${hotAtLeast} °C or above`}`,
    );
  }
  const { max } = temperatureRange(profile);
  if (rule.neverAbove !== null && max > rule.neverAbove) failings.push(`it reached ${max} °C, above ${rule.neverAbove} °C`);
  const elapsed = exactMinutes(profile.at(-1)?.minutes ?? 0).minus(profile[0]?.minutes ?? 0);
  if (!isWithin(elapsed, rule.discardAtMinutes)) {
    failings.push(`it was kept ${shown(elapsed.toNumber(), 6)} min, and had to be gone at ${rule.discardAtMinutes} min`);
  }
  const judged = figures(profile, timeOutside(profile, rule.outside));
  return { verdict: failings.length === 0 ? 'pass' : 'fail', ...judged, defenceCouldApply: false, defenceConditions: [], failings };
}

function figures(profile: Profile, outside: OutsideTime) {
  return {
    longestMinutesOutside: outside.longest.toNumber(),
    totalMinutesOutside: outside.totalMinutes,
    periodsOutside: outside.periods,
    minutesSinceStart: exactMinutes(profile.at(-1)?.minutes ?? 0)
      .minus(profile[0]?.minutes ?? 0)
      .toNumber(),
  };
}

const ruleName = z.enum(['cold-us', 'hot-us', 'cold-england', 'hot-england', 'four-hour', 'six-hour'], {
  error: 'one of cold-us, hot-us, cold-england, hot-england, four-hour, six-hour',
});

export const holding = defineCalculation({
  name: 'holding',
  title: 'Hot and cold holding, and time in place of temperature',
  input: only({ profile: profileSchema(1), rule: ruleName }),
  output: z.object({
    verdict: z.enum(['pass', 'fail']),
    longestMinutesOutside: z.number(),
    totalMinutesOutside: z.number(),
    periodsOutside: z.number(),
    minutesSinceStart: z.number(),
    defenceCouldApply: z
      .boolean()
      .meta({ description: 'true where the limit was passed, but once and for a time short enough for the defence in the law' }),
    defenceConditions: z.array(z.string()),
  }),
  example: {
    profile: [
      { minutes: 0, celsius: 7 },
      { minutes: 60, celsius: 12 },
      { minutes: 120, celsius: 7 },
    ],
    rule: 'cold-england',
  },
  run({ profile, rule }) {
    const inputs = { profile: echoProfile(profile), rule };
    if (rule === 'four-hour' || rule === 'six-hour') {
      const { failings, ...judged } = judgeTimeRule(profile, timeRules[rule]);
      return { ok: true, value: { ...judged, ...timeWords(profile, timeRules[rule], judged, failings), inputs } };
    }
    const judged = judgeTemperatureRule(profile, temperatureRules[rule]);
    return { ok: true, value: { ...judged, ...temperatureWords(profile, temperatureRules[rule], judged), inputs } };
  },
});

const englandOnly =
  'England only: Wales, Scotland and Northern Ireland have their own law. Other defences in it state no time and are not judged here.';

type Words = Omit<Explained, 'inputs'>;

function temperatureWords(profile: Profile, rule: HoldingRule, judged: HoldingJudgement): Words {
  const { defence } = rule;
  const times = judged.periodsOutside === 1 ? 'once' : `${judged.periodsOutside} times`;
  const longest = `for ${shown(judged.longestMinutesOutside, 6)} min at the longest and ${shown(judged.totalMinutesOutside, 6)} min in all`;
  const about =
    defence === null
      ? ''
      : judged.defenceCouldApply
        ? ` One period of less than ${defence.lessThanMinutes} min: a defence could apply, on the conditions listed.`
        : ` The defence for display or service could not apply: it needs one single period of less than ${defence.lessThanMinutes} min.`;
  return {
    explanation:
      judged.verdict === 'pass'
        ? `Every reading is ${rule.limit}.`
        : `The food must be ${rule.limit}; it was outside that ${times}, ${longest}.${about}`,
    source: rule.source,
    validRange: null,
    cautions: [
      standardCaution,
      'The limit is for the food, not for the air around it.',
      betweenReadings,
      ...(defence === null ? [] : [englandOnly]),
      ...(judged.defenceCouldApply ? ['The record shows only this profile: whether the food had been out before is yours to prove.'] : []),
      ...beliefCautions(profile),
    ],
  };
}

function timeWords(profile: Profile, rule: TimeRule, judged: HoldingJudgement, failings: readonly string[]): Words {
  const left = rule.discardAtMinutes - judged.minutesSinceStart;
  const remains = left > 0 ? `${shown(left, 6)} min remain` : 'the time is up now';
  const since = `${shown(judged.minutesSinceStart, 6)} min since the food left temperature control`;
  return {
    explanation:
      failings.length === 0
        ? `${since}: ${remains}; by ${rule.discardAtMinutes} min it is served, cooked or thrown away.`
        : `The time rule is not met: ${failings.join('; ')}.`,
    source: rule.source,
    validRange: null,
    cautions: [
      standardCaution,
      'The first reading must be the moment the food left temperature control: the clock runs from it and is never set back.',
      'Needs written procedures kept on the premises, and food marked with the time at which it is to be thrown away.',
      betweenReadings,
      ...beliefCautions(profile),
    ],
  };
}
