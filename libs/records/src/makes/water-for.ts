import { convertExact, refuse, type Outcome } from '@bakehouse/kernel';
import { waterTemperature } from '@bakehouse/sums';
import * as z from 'zod';
import { recentFriction, type FrictionFound, type RecentMix } from './recent-friction.js';
import type { Row } from '../base/state.js';
import type { FormulaContent } from '../rows/formula-content.js';

/** What a dough is measured in. */
export const doughUnit = z.enum(['degC', 'degF']);
export const frictionSource = z.enum(['recent-mixes', 'formula', 'nothing']);

export interface WaterQuestion {
  readonly content: FormulaContent;
  /** What was mixed of this formula on this mixer, in any order. */
  readonly mixes: readonly RecentMix[];
  readonly unit: z.infer<typeof doughUnit>;
  readonly flour: number;
  readonly room: number;
  /** Without it, the middle of what the formula says. */
  readonly wanted?: number | undefined;
  /** The leaven's temperature, where the formula has one: `leavenOf` says whether. */
  readonly leaven?: number | undefined;
  /** The leaven in the formula; null where it has none. */
  readonly has?: Leaven | null;
  /** The dough in all; without it, as the formula is written. */
  readonly grams?: string | undefined;
}
/** What of a formula is leaven, and how much there is of it for one part of its water. */
export interface Leaven {
  readonly name: string;
  readonly perWater: number;
}
export interface FrictionUsed {
  readonly from: z.infer<typeof frictionSource>;
  readonly celsius: number | null;
  readonly leastCelsius: number | null;
  readonly maxCelsius: number | null;
  readonly says: string;
  readonly used: readonly RecentMix[];
  readonly others: readonly RecentMix[];
}
export interface WaterFigure {
  readonly celsius: number;
  readonly fahrenheit: number;
  readonly reachable: boolean;
  readonly reason: string | null;
  readonly explanation: string;
  readonly source: string;
  readonly validRange: string | null;
  readonly cautions: string[];
}
export interface WaterFor {
  readonly friction: FrictionUsed;
  readonly water: WaterFigure | null;
  /** What is not known where there is no figure. */
  readonly missing: string | null;
}

/**
 * The water temperature for a formula on one mixer, with the friction factor that its last mixes there had; where none compares, the
 * formula's own, and where there is none either, no figure but what is missing. Three-term sum, common practice; a leaven is made up for by its heat.
 */
export function waterFor({ content, mixes, unit, flour, room, grams, has = null, ...asked }: WaterQuestion): Outcome<WaterFor> {
  const whole = content.lines.reduce((mg, l) => mg + l.mg, 0);
  const sizePpm = grams === undefined ? 1_000_000 : Math.round((convertExact(grams, 'g', 'mg').toNumber() / whole) * 1_000_000);
  const { minutesSlow, minutesFast } = content;
  const friction = frictionOf(recentFriction(mixes, { minutesSlow, minutesFast, sizePpm }), content);
  const wanted = asked.wanted ?? middleOf(content, unit);
  if (has !== null && asked.leaven === undefined)
    return { ok: true, value: { friction, water: null, missing: `Give the temperature of the leaven: ${has.name}.` } };
  if (friction.celsius === null || wanted === null)
    return { ok: true, value: { friction, water: null, missing: friction.celsius === null ? noFactor : noWanted } };
  const sum = waterTemperature.calculate({
    wanted,
    factors: { flour, room, friction: unit === 'degC' ? friction.celsius : (friction.celsius * 9) / 5 },
    ...(has !== null && asked.leaven !== undefined && { leaven: { temperature: asked.leaven, perWater: has.perWater } }),
    unit,
    terms: 3,
    frictionTerms: 3,
  });
  if (!sum.ok) return refuse(sum.problem, sum.field?.replace(/^factors\./, ''), sum.acceptable);
  const { waterCelsius: celsius, waterFahrenheit: fahrenheit, reachable, reason, explanation, source, validRange, cautions } = sum.value;
  return {
    ok: true,
    value: { friction, missing: null, water: { celsius, fahrenheit, reachable, reason, explanation, source, validRange, cautions } },
  };
}

/**
 * The leaven of a formula: what it takes of formulas that make a preferment or a starter. Its water is the heaviest bought line that is no flour; without
 * one nothing can be made up by water.
 */
export function leavenOf({ lines }: FormulaContent, typeOf: (formula: string) => Row<'formulaVersion'>['type'] | undefined): Leaven | null {
  const leavens = lines.filter((l) => l.madeBy !== null && ['preferment', 'starter'].includes(typeOf(l.madeBy) ?? ''));
  const water = Math.max(0, ...lines.filter((l) => !l.flour && l.madeBy === null).map((l) => l.mg));
  if (leavens.length === 0 || water === 0) return null;
  const mg = leavens.reduce((sum, l) => sum + l.mg, 0);
  return { name: leavens.map((l) => l.name).join(', '), perWater: Math.round((mg / water) * 1000) / 1000 };
}

const noFactor =
  'No friction factor is known for this formula on this mixer: mix once with flour, room, water and dough temperature noted.';
const noWanted = 'The formula says no dough temperature: give the one that is wanted.';

function frictionOf({ milli, leastMilli, maxMilli, used, others }: FrictionFound, { frictionCelsius }: FormulaContent): FrictionUsed {
  if (milli !== null)
    return {
      from: 'recent-mixes',
      celsius: milli / 1000,
      leastCelsius: inCelsius(leastMilli),
      maxCelsius: inCelsius(maxMilli),
      used,
      others,
      says:
        used.length === 1
          ? 'The factor of the one mix on this mixer that compares in minutes and size.'
          : `The middle factor of the last ${used.length} mixes on this mixer that compare in minutes and size.`,
    };
  const none = { leastCelsius: null, maxCelsius: null, used, others };
  return frictionCelsius === null
    ? { from: 'nothing', celsius: null, says: 'No mix on this mixer compares, and the formula names no factor.', ...none }
    : {
        from: 'formula',
        celsius: Number(frictionCelsius),
        says: 'The factor that the formula expects: no mix on this mixer compares in minutes and size yet.',
        ...none,
      };
}

const inCelsius = (milli: number | null): number | null => (milli === null ? null : milli / 1000);

function middleOf({ doughCelsius }: FormulaContent, unit: WaterQuestion['unit']): number | null {
  if (doughCelsius === null) return null;
  const middle = convertExact(doughCelsius.min, 'degC', unit)
    .plus(convertExact(doughCelsius.max, 'degC', unit))
    .div(2);
  return middle.toDecimalPlaces(3).toNumber();
}
