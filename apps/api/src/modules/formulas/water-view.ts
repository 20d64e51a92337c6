import type { WaterAsked, WaterView } from '@bakehouse/contracts';
import {
  caution,
  convertExact,
  recentFriction,
  refuse,
  waterTemperature,
  type FormulaContent,
  type FrictionFound,
  type Outcome,
  type RecentMix,
} from '@bakehouse/domain';

export interface WaterQuestion {
  readonly formula: string;
  readonly content: FormulaContent;
  readonly mixer: WaterView['mixer'];
  readonly mixes: readonly RecentMix[];
  readonly asked: WaterAsked;
}
type Friction = WaterView['friction'];

/**
 * How warm the water must be for this formula on this mixer, with the friction factor that its last mixes there had; where none compares, the
 * formula's own, and where there is none either, no figure but what is missing. Pure. Three-term sum, common practice.
 */
export function waterViewOf({ formula, content, mixer, mixes, asked }: WaterQuestion): Outcome<WaterView> {
  const whole = content.lines.reduce((mg, l) => mg + l.mg, 0);
  const sizePpm = asked.grams === undefined ? 1_000_000 : Math.round((convertExact(asked.grams, 'g', 'mg').toNumber() / whole) * 1_000_000);
  const friction = frictionOf(
    recentFriction(mixes, { minutesSlow: content.minutesSlow, minutesFast: content.minutesFast, sizePpm }),
    content,
  );
  const wanted = asked.wanted ?? middleOf(content, asked.unit);
  const missing =
    friction.celsius === null
      ? 'No friction factor is known for this formula on this mixer: mix once with flour, room, water and dough temperature noted.'
      : wanted === null
        ? 'The formula says no dough temperature: give the one that is wanted.'
        : null;
  if (friction.celsius === null || wanted === null) return { ok: true, value: { formula, mixer, friction, water: null, missing, caution } };
  const rub = asked.unit === 'degC' ? friction.celsius : (friction.celsius * 9) / 5;
  const sum = waterTemperature.calculate({
    wanted,
    factors: { flour: asked.flour, room: asked.room, friction: rub },
    unit: asked.unit,
    terms: 3,
    frictionTerms: 3,
  });
  if (!sum.ok) return refuse(sum.problem, sum.field?.replace(/^factors\./, ''), sum.acceptable);
  const { waterCelsius, waterFahrenheit, reachable, reason, explanation, source, validRange, cautions } = sum.value;
  return {
    ok: true,
    value: {
      formula,
      mixer,
      friction,
      missing,
      caution,
      water: { celsius: waterCelsius, fahrenheit: waterFahrenheit, reachable, reason, explanation, source, validRange, cautions },
    },
  };
}

function frictionOf(found: FrictionFound, content: FormulaContent): Friction {
  const lists = { used: found.used.map(mixShown), others: found.others.map(mixShown) };
  if (found.milli !== null)
    return {
      from: 'recent-mixes',
      celsius: found.milli / 1000,
      leastCelsius: inCelsius(found.leastMilli),
      mostCelsius: inCelsius(found.mostMilli),
      ...lists,
      says:
        found.used.length === 1
          ? 'The factor of the one mix on this mixer that compares in minutes and size.'
          : `The middle factor of the last ${found.used.length} mixes on this mixer that compare in minutes and size.`,
    };
  const own = content.frictionCelsius;
  return own === null
    ? {
        from: 'nothing',
        celsius: null,
        leastCelsius: null,
        mostCelsius: null,
        says: 'No mix on this mixer compares, and the formula names no factor.',
        ...lists,
      }
    : {
        from: 'formula',
        celsius: Number(own),
        leastCelsius: null,
        mostCelsius: null,
        says: 'The factor that the formula expects: no mix on this mixer compares in minutes and size yet.',
        ...lists,
      };
}

function mixShown({ at, frictionMilli, minutesSlow, minutesFast, scalePpm }: RecentMix): Friction['used'][number] {
  return {
    at,
    frictionCelsius: frictionMilli / 1000,
    minutesSlow,
    minutesFast,
    sizePercent: scalePpm === null ? null : Math.round(scalePpm / 1000) / 10,
  };
}

const inCelsius = (milli: number | null): number | null => (milli === null ? null : milli / 1000);

function middleOf({ doughCelsius }: FormulaContent, unit: WaterAsked['unit']): number | null {
  if (doughCelsius === null) return null;
  const middle = convertExact(doughCelsius.min, 'degC', unit)
    .plus(convertExact(doughCelsius.max, 'degC', unit))
    .div(2);
  return middle.toDecimalPlaces(3).toNumber();
}
