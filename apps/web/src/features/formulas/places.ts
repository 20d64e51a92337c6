import { countText, type Difference } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { mass } from '../../shared/format';
import type { DraftWords } from '../../shared/drafts/conflict';
import { differenceText } from '../../shared/drafts/difference-text';
import type { Choices } from './choices';

const called: Readonly<Record<string, string>> = {
  name: 'name',
  type: 'type',
  content: '',
  lines: 'lines',
  steps: 'steps',
  products: 'products',
  makes: 'what it makes',
  doughCelsius: 'dough temperature',
  frictionCelsius: 'friction factor',
  minutesSlow: 'minutes slow',
  minutesFast: 'minutes fast',
  lifeHours: 'hours it keeps',
  rework: 'rework',
  sources: 'may be put back',
  maxFlourBp: 'at most of the flour',
  maxAgeHours: 'at most so old',
  maxTimes: 'the same food at most',
  material: 'material',
  mg: 'weight',
  flour: 'flour or not',
  madeBy: 'made by',
  key: 'key',
  minutes: 'minutes',
  maxMinutes: 'at most',
  speed: 'speed',
  target: 'target',
  place: 'place',
  product: 'product',
  scalingMg: 'scaling weight',
  pieces: 'pieces',
  bakedMg: 'weight baked',
  lossPpm: 'bake loss',
  lifeDays: 'days it keeps',
  dateType: 'type of date',
  ovens: 'ovens',
  oven: 'oven',
  celsius: '°C',
  finishCelsius: 'finishing °C',
  steamSeconds: 'steam',
  additions: 'besides',
  mgPerPiece: 'grams a piece',
  after: 'when',
  min: 'from',
  max: 'to',
};

const limits: Readonly<Record<string, (most: number) => string>> = {
  maxFlourBp: (most) => `${most / 100} %`,
  maxAgeHours: (most) => countText(most, 'hour'),
  maxTimes: (most) => countText(most, 'time'),
};

/** A place in a formula as people call it: what identifies a member by its name, the rest by its word. */
export function placeWords(path: readonly string[], { nameOf }: Pick<Choices, 'nameOf'>): string {
  return path
    .map((step) =>
      Object.hasOwn(called, step)
        ? called[step]
        : /^\d+$/.test(step)
          ? String(Number(step) + 1)
          : step.startsWith('{')
            ? 'one not named yet'
            : nameOf(step),
    )
    .filter((word) => word !== '')
    .join(', ');
}

/** A value as it is said beside a difference. */
export function valueWords(path: readonly string[], value: unknown, { nameOf }: Pick<Choices, 'nameOf'>): string {
  const last = path.at(-1) ?? '';
  if (value === null || value === undefined || value === '') return 'nothing';
  if (typeof value === 'number' && Object.hasOwn(limits, last)) return limits[last]?.(value) ?? '';
  if (typeof value === 'number') return /mg/i.test(last) ? mass(value) : last === 'lossPpm' ? `${value / 10_000} %` : String(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return last === 'type' ? phrase(`formula.${value}` as 'formula.dough') : nameOf(value); // an unknown one is spelt out
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map((one) => valueWords([], one, { nameOf })).join(', ');
  if (last === 'rework') {
    const { sources, ...of } = { sources: [], ...value };
    const limited = new Map(Object.entries(of));
    const said = Object.entries(limits).flatMap(([limit, words]) => {
      const most = limited.get(limit);
      return typeof most === 'number' ? [`${called[limit] ?? limit} ${words(most)}`] : [];
    });
    return [Array.isArray(sources) && sources.length > 0 ? valueWords([], sources, { nameOf }) : 'nothing may be put back', ...said].join(
      ', ',
    );
  }
  const { name, mg } = { name: undefined, mg: undefined, ...value };
  return [typeof name === 'string' && name !== '' ? name : 'one', ...(typeof mg === 'number' ? [mass(mg)] : [])].join(', ');
}

/** What differs, in words: old, then new. */
export const differenceWords = (d: Difference, choices: Pick<Choices, 'nameOf'>): string =>
  differenceText(d, placeWords(d.path, choices), (path, value) => valueWords(path, value, choices));

/** The same for one device's names. */
export const formulaWords = (choices: Pick<Choices, 'nameOf'>): DraftWords => ({
  place: (path) => placeWords(path, choices),
  value: (path, value) => valueWords(path, value, choices),
  difference: (d) => differenceWords(d, choices),
});
