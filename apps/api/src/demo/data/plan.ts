import type { Limit, PlanContent, PointContent } from '@bakehouse/records';
import type { FormulaKey } from './formulas.js';
import type { MaterialKey } from './materials.js';

export interface PointData extends Readonly<
  Pick<
    PointContent,
    'name' | 'step' | 'class' | 'hazard' | 'measured' | 'parameter' | 'limit' | 'frequency' | 'ifNotMonitored' | 'ifOutside'
  >
> {
  readonly action: string;
  readonly products?: readonly MaterialKey[];
  readonly formulas?: readonly FormulaKey[];
  readonly holdSeconds?: string;
}

const basis =
  'A figure of this demo. Nobody has validated it: a competent person does, and the local food-safety authority’s rules come first.';
const range = (min: string | null, max: string | null): Limit => ({ type: 'range', min, max, unit: 'degC' });
const elapsed = (maxMinutes: number, fromCelsius: string | null = null, toCelsius: string | null = null): Limit => ({
  type: 'elapsed',
  maxMinutes,
  fromCelsius,
  toCelsius,
});

const core = (name: string, product: MaterialKey, min: string, of: Partial<PointData> = {}): PointData => ({
  name,
  step: 'bake',
  class: 'ccp',
  hazard: 'Germs survive the oven',
  measured: 'core',
  parameter: 'core temperature',
  limit: range(min, null),
  frequency: 'first-load-of-day',
  ifNotMonitored: 'hold',
  ifOutside: 'hold',
  action: 'Back in the oven, then read the coldest piece again',
  products: [product],
  ...of,
});
const dough = (name: string, formula: FormulaKey, min: string, max: string): PointData => ({
  name,
  step: 'mix',
  class: 'process-check',
  hazard: 'None: a check of the process',
  measured: 'dough',
  parameter: 'dough temperature',
  limit: range(min, max),
  frequency: 'each-make',
  ifNotMonitored: 'record',
  ifOutside: 'note',
  action: 'Shorten or lengthen the rest',
  formulas: [formula],
});
const store = (name: string, limit: Limit, of: Partial<PointData> = {}): PointData => ({
  name,
  step: 'store',
  class: 'oprp',
  hazard: 'Germs grow',
  measured: 'air',
  parameter: 'air temperature',
  limit,
  frequency: 'twice-a-day',
  ifNotMonitored: 'record',
  ifOutside: 'correct',
  action: 'Close the door, read again in half an hour; move the food if it is no better',
  ...of,
});

/** The control points of the demo's plan. Every limit is a starting point for a competent person to validate. */
export const points = {
  'chilled-in': {
    name: 'Chilled goods on arrival',
    step: 'receive',
    class: 'ccp',
    hazard: 'Germs grow',
    measured: 'between-packs',
    parameter: 'temperature on arrival',
    limit: range(null, '8'),
    frequency: 'each-delivery',
    ifNotMonitored: 'record',
    ifOutside: 'hold',
    action: 'Set aside; probe a pack; refuse what is warm',
  },
  'fridge-air': store('Fridges', range(null, '5')),
  'freezer-air': store('Freezers', range(null, '-18')),
  'retarder-air': store('Retarder', range('2', '6'), { step: 'retard' }),
  'dough-white': dough('White dough', 'white', '24.5', '27.5'),
  'dough-sour': dough('Sourdough', 'sourdough', '22.5', '25.5'),
  'dough-baguette': dough('Baguette dough', 'baguette', '22.5', '25.5'),
  'loaf-core': core('Core of the sourdough', 'loaf', '96'),
  'tin-core': core('Core of the tins', 'tin', '94'),
  'bloomer-core': core('Core of the bloomers', 'bloomer', '93', { frequency: 'each-load' }),
  'bap-core': core('Core of the baps', 'bap', '92'),
  'baguette-core': core('Core of the part-baked baguettes', 'baguette', '92'),
  'tart-core': core('Core of the treacle tarts', 'tart', '75'),
  'tartlet-core': core('Core of the almond tartlets', 'tartlet', '75', { frequency: 'each-load', holdSeconds: '30' }),
  'roll-core': core('Coldest core of the pork rolls', 'roll', '75', { frequency: 'each-load', holdSeconds: '30' }),
  'custard-cook': {
    name: 'Custard cooked',
    step: 'cook',
    class: 'ccp',
    hazard: 'Germs survive cooking',
    measured: 'liquid',
    parameter: 'temperature cooked to',
    limit: range('95', null),
    frequency: 'each-make',
    ifNotMonitored: 'hold',
    ifOutside: 'hold',
    action: 'Cook on, then read again',
    formulas: ['custard'],
  },
  'custard-cool': {
    name: 'Custard cooled from 63 to 8 °C',
    step: 'cool',
    class: 'ccp',
    hazard: 'Spores grow out while it cools',
    measured: 'elapsed',
    parameter: 'minutes from 63 to 8 °C',
    limit: elapsed(90, '63', '8'),
    frequency: 'each-make',
    ifNotMonitored: 'hold',
    ifOutside: 'hold',
    action: 'Set aside; the lead decides; destroyed where nobody can show it is safe',
    formulas: ['custard'],
  },
  'slice-chilled': {
    name: 'Custard slices before the counter',
    step: 'cool',
    class: 'ccp',
    hazard: 'Germs grow',
    measured: 'core',
    parameter: 'core temperature',
    limit: range(null, '5'),
    frequency: 'each-batch',
    ifNotMonitored: 'hold',
    ifOutside: 'hold',
    action: 'Back in the chiller, then read again',
    products: ['slice'],
  },
  'baguette-cool': {
    name: 'Baguettes cooled to 30 °C',
    step: 'cool',
    class: 'oprp',
    hazard: 'Mould, and rope in warm weather',
    measured: 'elapsed',
    parameter: 'minutes to 30 °C',
    limit: elapsed(90),
    frequency: 'each-batch',
    ifNotMonitored: 'record',
    ifOutside: 'correct',
    action: 'Space the racks',
    products: ['baguette'],
  },
  'baguette-frozen': {
    name: 'Baguettes frozen',
    step: 'freeze',
    class: 'oprp',
    hazard: 'Spoils before its date',
    measured: 'core',
    parameter: 'core temperature',
    limit: range(null, '-18'),
    frequency: 'each-batch',
    ifNotMonitored: 'record',
    ifOutside: 'correct',
    action: 'Leave in the freezer, read again',
    products: ['baguette'],
  },
  'display-time': {
    name: 'Hot rolls on display below 63 °C',
    step: 'display',
    class: 'ccp',
    hazard: 'Germs grow',
    measured: 'elapsed',
    parameter: 'minutes on display',
    limit: elapsed(120),
    frequency: 'each-batch',
    ifNotMonitored: 'record',
    ifOutside: 'correct',
    action: 'Throw away what is left; it is offered once only',
    products: ['roll'],
  },
  'wash-age': {
    name: 'Egg wash thrown away in time',
    step: 'finish',
    class: 'oprp',
    hazard: 'Germs grow in egg',
    measured: 'elapsed',
    parameter: 'minutes since it was made',
    limit: elapsed(240),
    frequency: 'each-make',
    ifNotMonitored: 'record',
    ifOutside: 'correct',
    action: 'Throw away, wash the bowl; never top up',
    formulas: ['wash'],
  },
  'after-almonds': {
    name: 'Cleaned down after almonds',
    step: 'clean',
    class: 'ccp',
    hazard: 'Almond in what is made next',
    measured: 'yes-no',
    parameter: 'bowl, beater and bench clean by eye',
    limit: { type: 'yes' },
    frequency: 'each-day',
    ifNotMonitored: 'record',
    ifOutside: 'correct',
    action: 'Clean again before anything else is mixed; label what was mixed in between',
  },
} as const satisfies Record<string, PointData>;
export type PointKey = keyof typeof points;

interface Ids {
  readonly material: Readonly<Record<MaterialKey, string>>;
  readonly formula: Readonly<Record<FormulaKey, string>>;
}

/** The plan as approved; the first version let bloomers out at 92 °C. */
export function planContent(ids: Ids, version: 1 | 2): PlanContent {
  return {
    name: 'Mill Lane and Harbour Steps',
    scope: 'Bread, pastry and cream goods, baked here and sold loose, packed here and wholesale',
    team: 'Jago Wick leads; Morwen Pellow; the bakers',
    pastLife: { opened: 'warn', madeHere: version === 2 ? 'hold' : 'warn' },
    points: Object.entries(points).map(([key, p]) => {
      const { action, products = [], formulas = [], holdSeconds, ...of }: PointData = p;
      const limit = key === 'bloomer-core' && version === 1 ? range('92', null) : of.limit;
      return {
        key,
        ...of,
        limit,
        holdSeconds: holdSeconds ?? null,
        products: products.map((m) => ids.material[m]),
        formulas: formulas.map((f) => ids.formula[f]),
        correctiveAction: action,
        basis,
        validated: null,
      };
    }),
  };
}
