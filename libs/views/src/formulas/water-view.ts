import type { WaterRequest, WaterView } from '@bakehouse/contracts';
import { caution, type Outcome } from '@bakehouse/kernel';
import { leavenOf, waterFor, type FormulaContent, type RecentMix, type Row } from '@bakehouse/records';

interface WaterInput {
  readonly formula: string;
  readonly content: FormulaContent;
  readonly mixer: WaterView['mixer'];
  readonly mixes: readonly RecentMix[];
  readonly request: WaterRequest;
  readonly typeOf: (formula: string) => Row<'formulaVersion'>['type'] | undefined;
}

/** The water temperature for this formula on this mixer, as it goes out. */
export function waterViewOf({ formula, content, mixer, mixes, request, typeOf }: WaterInput): Outcome<WaterView> {
  const answer = waterFor({ content, mixes, has: leavenOf(content, typeOf), ...request });
  if (!answer.ok) return answer;
  const { friction, water, missing } = answer.value;
  const { used, others } = friction;
  return {
    ok: true,
    value: { formula, mixer, friction: { ...friction, used: used.map(shown), others: others.map(shown) }, water, missing, caution },
  };
}

function shown({ at, frictionMilli, minutesSlow, minutesFast, scalePpm }: RecentMix): WaterView['friction']['used'][number] {
  return {
    at,
    frictionCelsius: frictionMilli / 1000,
    minutesSlow,
    minutesFast,
    sizePercent: scalePpm === null ? null : Math.round(scalePpm / 1000) / 10,
  };
}
