import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { celsius, only, positive, shown } from './fields.js';
import { beliefCautions, betweenReadings, echoProfile, profileSchema, temperatureRange, type Profile } from './profile.js';
import { defineCalculation, standardCaution } from '../calculation.js';

/** No figure above this is printed: 12 log is the largest reduction that published processes ask for, and no trial can show more (from memory). */
export const logReductionCap = 12;

/**
 * Minutes at the reference temperature with the same effect as the profile: ∫ 10^((T − Tref)/z) dt, exact for straight lines
 * between readings. °C and minutes; Infinity where the figures overflow. Source: Bigelow's log-linear model.
 */
export function lethalMinutes(profile: Profile, referenceCelsius: number, zCelsius: number): number {
  const rate = Math.LN10 / zCelsius;
  let total = 0;
  let before = profile[0];
  if (before === undefined) return 0;
  for (let i = 1; i < profile.length; i++) {
    const after = profile[i];
    if (after === undefined) break;
    total +=
      (after.minutes - before.minutes) * meanRate(rate * (before.celsius - referenceCelsius), rate * (after.celsius - referenceCelsius));
    before = after;
  }
  return total;
}

/** Mean of e^x for x moving evenly from a to b. Taken from the larger end with expm1, it neither overflows early nor loses figures where a ≈ b. */
function meanRate(a: number, b: number): number {
  const top = a > b ? a : b;
  const drop = a > b ? b - a : a - b;
  return drop === 0 ? Math.exp(top) : Math.exp(top) * (Math.expm1(drop) / drop);
}

/** As `lethalMinutes`, counting only the time spent from `from` to `to` °C, ends included, and how long that was. */
export function lethalMinutesInRange(profile: Profile, referenceCelsius: number, zCelsius: number, from: number, to: number) {
  const rate = Math.LN10 / zCelsius;
  let minutes = 0;
  let equivalentMinutes = 0;
  for (let i = 1; i < profile.length; i++) {
    const [a, b] = [profile[i - 1], profile[i]];
    if (a === undefined || b === undefined || Math.max(a.celsius, b.celsius) < from || Math.min(a.celsius, b.celsius) > to) continue;
    const [low, high] = [Math.max(Math.min(a.celsius, b.celsius), from), Math.min(Math.max(a.celsius, b.celsius), to)];
    const share = a.celsius === b.celsius ? 1 : (high - low) / Math.abs(b.celsius - a.celsius);
    const time = share * (b.minutes - a.minutes);
    minutes += time;
    equivalentMinutes += time * meanRate(rate * (low - referenceCelsius), rate * (high - referenceCelsius));
  }
  return { minutes, equivalentMinutes };
}

const input = only({
  profile: profileSchema(2),
  referenceCelsius: celsius('reference temperature'),
  zCelsius: positive('z, the rise in °C that makes D ten times shorter', 100),
  dMinutes: positive('D at the reference temperature, in minutes', 1e9).optional(),
  measuredFromCelsius: celsius('lowest temperature at which D and z were measured').optional(),
  measuredToCelsius: celsius('highest temperature at which D and z were measured').optional(),
});

const output = z.object({
  equivalentMinutes: z.number(),
  logReduction: z.number().nullable(),
  logReductionCapped: z.boolean(),
  outsideMeasuredRange: z.boolean().nullable().meta({ description: 'null where neither end of the measured range was given' }),
  logReductionWithinRange: z.number().nullable().meta({
    description: 'from the time spent inside the measured range alone; null where D or the range was not given',
  }),
  reason: z.string().nullable().meta({ description: 'why there is no log reduction; null where there is one' }),
});

type LethalityInput = z.output<typeof input>;

export const lethality = defineCalculation({
  name: 'lethality',
  title: 'Heat treatment as minutes at a reference temperature',
  input,
  output,
  example: {
    profile: [
      { minutes: 0, celsius: 60 },
      { minutes: 10, celsius: 80 },
    ],
    referenceCelsius: 70,
    zCelsius: 7.5,
  },
  run(given) {
    const { measuredFromCelsius: from, measuredToCelsius: to } = given;
    if (from !== undefined && to !== undefined && from > to)
      return refuse('unacceptable-value', 'measuredToCelsius', `a temperature of ${from} °C or more`);
    const equivalentMinutes = lethalMinutes(given.profile, given.referenceCelsius, given.zCelsius);
    if (!Number.isFinite(equivalentMinutes))
      return refuse('unacceptable-value', 'zCelsius', 'a z wide enough for these temperatures: the sum overflows');
    const log = logReductions(given, equivalentMinutes);
    return {
      ok: true,
      value: {
        equivalentMinutes,
        ...log,
        inputs: { ...given, profile: echoProfile(given.profile) },
        explanation: explain(given, equivalentMinutes, log),
        source: 'Log-linear (Bigelow) model: F = ∫ 10^((T − Tref)/z) dt, log reduction = F / D(Tref)',
        validRange:
          from === undefined && to === undefined
            ? 'Not stated: D and z hold only at the temperatures, and in the product, in which they were measured.'
            : `D and z as measured ${rangeWords(from, to)}, in the product in which they were measured.`,
        cautions: cautionsFor(given, log.logReductionCapped),
      },
    };
  },
});

function rangeWords(from: number | undefined, to: number | undefined): string {
  if (from === undefined) return `up to ${to} °C`;
  return to === undefined ? `from ${from} °C` : `from ${from} to ${to} °C`;
}

function logReductions(given: LethalityInput, equivalentMinutes: number) {
  const { dMinutes: d, measuredFromCelsius: from, measuredToCelsius: to, profile } = given;
  const range = temperatureRange(profile);
  const stated = from !== undefined || to !== undefined;
  const outside = stated ? range.min < (from ?? -Infinity) || range.max > (to ?? Infinity) : null;
  const formula = d === undefined ? null : equivalentMinutes / d;
  const inside =
    d === undefined || !stated
      ? null
      : lethalMinutesInRange(profile, given.referenceCelsius, given.zCelsius, from ?? -Infinity, to ?? Infinity).equivalentMinutes / d;
  const reason =
    formula === null
      ? 'No D value was given, so a log reduction cannot be stated.'
      : outside === true
        ? `Outside the measured range: the profile runs from ${range.min} to ${range.max} °C, D and z were measured ${rangeWords(from, to)}.`
        : null;
  return {
    logReduction: reason === null && formula !== null ? Math.min(formula, logReductionCap) : null,
    logReductionCapped: reason === null && formula !== null && formula > logReductionCap,
    outsideMeasuredRange: outside,
    logReductionWithinRange: inside === null ? null : Math.min(inside, logReductionCap),
    reason,
  };
}

function explain(given: LethalityInput, minutes: number, log: ReturnType<typeof logReductions>): string {
  const first = `The profile does as much as ${shown(minutes, 6)} min at ${given.referenceCelsius} °C, with z = ${given.zCelsius} °C.`;
  const inside =
    log.logReductionWithinRange === null || log.reason === null
      ? ''
      : ` The time inside the measured range alone gives ${shown(log.logReductionWithinRange)} log.`;
  if (log.logReduction === null) return `${first} ${log.reason ?? ''}${inside}`;
  const more = log.logReductionCapped
    ? `more than ${logReductionCap} log by the formula; nothing above ${logReductionCap} is stated`
    : `${shown(log.logReduction)} log`;
  return `${first} With D = ${given.dMinutes} min there, that is ${more}.`;
}

function cautionsFor(given: LethalityInput, capped: boolean): string[] {
  return [
    standardCaution,
    'For vegetative cells only: spores of Bacillus cereus, rope and formed toxins survive baking.',
    'D and z must not be carried over to another product without trials in it.',
    betweenReadings,
    ...(given.measuredFromCelsius === undefined || given.measuredToCelsius === undefined
      ? ['Without the whole range in which D and z were measured, nobody can tell whether these figures hold.']
      : []),
    ...(capped ? ['Far above the measured temperatures the log-linear model overshoots: a large figure is no evidence.'] : []),
    ...beliefCautions(given.profile),
  ];
}
