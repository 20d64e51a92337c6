import { refuse, type Refused } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { namesFood } from '../rows/control.js';
import { foodNeeds, foodOf } from '../control/done-away.js';
import { lotNames } from '../control/lot-names.js';
import { concernsBehind } from '../standing/concerns-behind.js';
import { downstreamNeeds, downstreamOf } from '../standing/held-by.js';
import { namesMore } from '../standing/named-beside.js';
import { everReaching, standingNeeds } from '../standing/standings.js';

type Deviation = Row<'deviation'>;
interface AboutFood {
  readonly lot: string;
  readonly concerns: readonly string[];
}

const namesNoFood = (state: State, { lot, subjectType, subject }: Deviation): boolean =>
  lot === null && !namesFood(subjectType) && foodOf(state, subjectType, subject).length === 0;

/** What has to be looked for, as far as can be named now, before `notAbout` can be asked of a lot that a decision names. */
export function aboutNeeds(state: State, deviation: Deviation, lot: string): Need[] {
  const food = foodNeeds(state, deviation.subjectType, deviation.subject);
  if (food.some((need) => !state.knows(need))) return food;
  if (namedBy(state, deviation).includes(lot)) return food;
  const down = downstreamNeeds(state, begins(state, deviation));
  if (down.some((need) => !state.knows(need))) return [...food, ...down];
  return [...food, ...down, ...(downstreamOf(state, begins(state, deviation)).includes(lot) ? [] : standingNeeds(state, [lot]))];
}

/**
 * Why a decision under a deviation cannot be about a lot, or null: the deviation has to name the lot, or food that the lot came of, or tell of a concern that reaches it, as
 * a failed check of a thermometer does that left its reading in doubt. A deviation about a place or the site names no food: which food was in a fridge that stood open only
 * the decision says. It ends nothing else that holds it.
 */
export function notAbout(state: State, deviation: Deviation, { lot, concerns }: AboutFood, at: string): Refused | null {
  if (!namesMore({ concerns }) && namesNoFood(state, deviation)) return null;
  if (namedBy(state, deviation).includes(lot) || downstreamOf(state, begins(state, deviation)).includes(lot)) return null;
  const behind = new Set(concernsBehind(state, deviation));
  if (everReaching(state, lot, at).some(({ concern }) => behind.has(concern.id))) return null;
  const named = namesNoFood(state, deviation)
    ? 'no food by name'
    : lotNames(foodOf(state, deviation.subjectType, deviation.subject).map((f) => f.lot));
  return refuse('not-about-this-food', 'payload.lot', `what this deviation is about, or what came of it: it is about ${named}`);
}

/** The lots from which everything that came of them is followed: of a load its batches, not a run that other loads were baked of as well. */
const begins = (state: State, deviation: Deviation): string[] => {
  const { subjectType, subject } = deviation;
  const runs = new Set(subjectType === 'load' ? namedBy(state, deviation) : []);
  return foodOf(state, subjectType, subject).flatMap(({ lot }) => (runs.has(lot.id) ? [] : lot.id));
};

/** The lots that it names: what was past its life or date when it was used, and of a load the runs that were in it, counted out or not. */
const namedBy = (state: State, { lot, subjectType, subject }: Deviation): string[] => [
  ...(lot === null ? [] : [lot]),
  ...(subjectType === 'load' ? state.find('loadLine', 'load', subject).map((l) => l.run) : []),
];
