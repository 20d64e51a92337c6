import type { Rows } from '../collections.js';
import { Book, uuid } from './driver.js';

const long = '2026-01-01T00:00:00.000Z';
const numbered = <K extends string>(from: number, ...names: readonly K[]) =>
  Object.fromEntries(names.map((name, i) => [name, uuid(from + i)])) as Record<K, string>; // every name is a key

export const materials = numbered(
  0xc00,
  'flour',
  'water',
  'salt',
  'yeast',
  'oil',
  'cream',
  'egg',
  'syrup',
  'butter',
  'whiteDough',
  'treacleFilling',
  'tin',
  'bloomer',
  'bap',
  'tart',
  'tinOil',
  'tinOilSoya',
);
export const places = numbered(0xa00, 'mixer', 'deckOven', 'rackOven', 'deck1', 'prover', 'porch', 'tub');
export const points = numbered(0xb00, 'dough', 'tinCore', 'bloomerCore', 'bapCore', 'chilled');
export const plan = uuid(0xbf0);
export const [whiteFormula, tartFormula] = [uuid(0xd00), uuid(0xd01)];
export const [whiteVersion, tartVersion] = [uuid(0xd10), uuid(0xd11)];
export const [baker, lead] = [uuid(1), uuid(5)];

type Specification = Rows['specification'];
const specification = (name: string, of: Partial<Specification> = {}): Specification => ({
  material: '',
  name,
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: null,
  lifeOpenedHours: null,
  contains: [],
  mayContain: [],
  flour: false,
  animalOrigin: false,
  supplier: null,
  since: long,
  ...of,
});

const specifications: Record<keyof typeof materials, Specification> = {
  flour: specification('white flour', { contains: ['wheat'], flour: true }),
  water: specification('water'),
  salt: specification('salt'),
  yeast: specification('fresh yeast'),
  oil: specification('rapeseed oil'),
  cream: specification('cream', { storage: 'chilled', contains: ['milk'], animalOrigin: true }),
  egg: specification('egg, liquid', { storage: 'chilled', contains: ['eggs'], animalOrigin: true }),
  syrup: specification('golden syrup'),
  butter: specification('butter', { contains: ['milk'] }),
  whiteDough: specification('white dough', { type: 'intermediate' }),
  treacleFilling: specification('treacle filling', { type: 'intermediate' }),
  tin: specification('white tin 800 g', { type: 'product', countedIn: 'pieces' }),
  bloomer: specification('bloomer 400 g', { type: 'product', countedIn: 'pieces' }),
  bap: specification('bap', { type: 'product', countedIn: 'pieces' }),
  tart: specification('treacle tart', { type: 'product', countedIn: 'pieces' }),
  tinOil: specification('tin oil', { type: 'aid' }),
  tinOilSoya: specification('tin oil, other brand', { type: 'aid', contains: ['soybeans'], mayContain: ['milk'] }),
};

const product = (key: keyof typeof materials, scalingMg: number, pieces: number | null, celsius: number, minutes: number) => ({
  product: materials[key],
  name: specifications[key].name,
  scalingMg,
  pieces,
  bakedMg: Math.round(scalingMg * 0.885),
  lossPpm: 115_000,
  lifeDays: 3,
  dateType: 'best-before' as const,
  ovens: [{ oven: 'deck', celsius, finishCelsius: null, minutes, steamSeconds: 0 }],
  additions: [],
});
const line = (key: keyof typeof materials, mg: number) => ({
  material: materials[key],
  name: specifications[key].name,
  mg,
  flour: key === 'flour',
  madeBy: null,
});
const step = (type: 'mix' | 'divide' | 'prove' | 'bake') => ({
  key: type,
  type,
  name: type,
  minutes: null,
  maxMinutes: null,
  speed: null,
  target: null,
  place: null,
});

/** White dough of the demo bakehouse: 25,000 g flour in 41,450 g. */
const white: Rows['formulaVersion'] = {
  formula: whiteFormula,
  number: 1,
  name: 'white dough',
  type: 'dough',
  since: long,
  content: {
    lines: [line('flour', 25_000_000), line('water', 15_000_000), line('salt', 450_000), line('yeast', 500_000), line('oil', 500_000)],
    steps: [step('mix'), step('divide'), step('prove'), step('bake')],
    products: [product('tin', 910_000, 20, 225, 30), product('bloomer', 465_000, 12, 230, 28), product('bap', 75_000, 216, 205, 11)],
    makes: materials.whiteDough,
    doughCelsius: { min: '24.5', max: '27.5' },
    frictionCelsius: '14',
    minutesSlow: 4,
    minutesFast: 6,
    lifeHours: null,
  },
};
const tart: Rows['formulaVersion'] = {
  formula: tartFormula,
  number: 1,
  name: 'treacle filling',
  type: 'filling',
  since: long,
  content: {
    lines: [line('syrup', 4_500_000), line('egg', 540_000), line('butter', 450_000), line('cream', 300_000)],
    steps: [step('mix')],
    products: [],
    makes: materials.treacleFilling,
    doughCelsius: null,
    frictionCelsius: null,
    minutesSlow: null,
    minutesFast: null,
    lifeHours: null,
  },
};

type Point = Rows['controlPoint']['content'];
const point = (key: string, of: Partial<Point> & Pick<Point, 'limit' | 'class' | 'ifOutside'>): Point => ({
  key,
  name: key,
  step: 'bake',
  hazard: 'survival of germs',
  formulas: [],
  products: [],
  measured: 'core',
  parameter: 'core temperature',
  holdSeconds: null,
  frequency: 'each-load',
  ifNotMonitored: 'hold',
  correctiveAction: 'back in the oven',
  basis: 'for this test',
  ...of,
});
const core = (key: string, of: keyof typeof materials, min: string): Point =>
  point(key, { class: 'ccp', ifOutside: 'hold', products: [materials[of]], limit: { type: 'range', min, max: null, unit: 'degC' } });
const plannedPoints: Record<keyof typeof points, Point> = {
  dough: point('dough', {
    class: 'process-check',
    ifOutside: 'note',
    ifNotMonitored: 'record',
    step: 'mix',
    measured: 'dough',
    parameter: 'dough temperature',
    frequency: 'each-make',
    formulas: [whiteFormula],
    limit: { type: 'range', min: '24.5', max: '27.5', unit: 'degC' },
  }),
  tinCore: core('tin-core', 'tin', '94'),
  bloomerCore: core('bloomer-core', 'bloomer', '93'),
  bapCore: core('bap-core', 'bap', '92'),
  chilled: point('chilled-in', {
    class: 'ccp',
    ifOutside: 'hold',
    step: 'receive',
    measured: 'between-packs',
    parameter: 'temperature on arrival',
    frequency: 'each-delivery',
    limit: { type: 'range', min: null, max: '8', unit: 'degC' },
  }),
};

/** A bakehouse with its catalogue, two formulas and a plan: what the nights of these tests begin with. */
export function bakehouse(): Book {
  const book = new Book(baker);
  for (const [key, row] of Object.entries(specifications)) {
    const material = materials[key as keyof typeof materials]; // Object.entries widens the keys of the record above
    book.given('specification', uuid(Number.parseInt(material.slice(-6), 16) + 0x1000), { ...row, material });
  }
  for (const [name, id] of Object.entries(places))
    book.given('place', id, {
      name,
      type: name.includes('ven') ? 'oven' : name === 'tub' ? 'vessel' : 'station',
      within: null,
      since: long,
    });
  book.given('formulaVersion', whiteVersion, white);
  book.given('formulaVersion', tartVersion, tart);
  book.given('planVersion', plan, {
    series: plan,
    number: 1,
    site: null,
    since: long,
    content: { name: 'plan', scope: '', team: '', points: Object.values(plannedPoints) },
  });
  for (const [key, id] of Object.entries(points)) {
    const content = plannedPoints[key as keyof typeof points]; // as above
    book.given('controlPoint', id, { plan, key: content.key, content });
  }
  return book;
}

/** The 25th of November, when the clock on the wall shows UTC. */
export const night = (time: string): string => `2026-11-25T${time}:00+00:00`;
export const row = (time: string): string => `2026-11-25T${time}:00.000Z`;
/** One line of a delivery, 25 kg with a code, unless it says otherwise. */
export const delivered = (lot: string, material: string, of: Record<string, unknown> = {}) => ({
  lot,
  material,
  code: lot.slice(-4),
  codeState: 'on-it',
  quantity: { figure: '25', unit: 'kg' },
  asWritten: null,
  bestBefore: null,
  useBy: null,
  temperature: null,
  ...of,
});
export const g = (figure: string) => ({ figure, unit: 'g' });
export const celsius = (figure: string) => ({ figure, unit: 'degC' });
