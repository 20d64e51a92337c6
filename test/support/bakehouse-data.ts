import type { FormulaContent, FormulaDraft, PayloadFor, PointContent } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';

/** The bakehouse of the trade's notes, as far as scenarios need it: invented, and its limits are for tests alone. */
type Specification = Omit<PayloadFor<'specification-accepted'>, 'material'>;
const ingredient: Omit<Specification, 'name'> = {
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: null,
  lifeOpenedHours: null,
  contains: [],
  mayContain: [],
  checked: { against: 'supplier-specification', on: '2026-01-01' },
  flour: false,
  animalOrigin: false,
  supplier: null,
};
const intermediate = { ...ingredient, type: 'intermediate', checked: null } as const;
const product = { ...ingredient, type: 'product', countedIn: 'pieces', checked: null } as const;

export const catalogue = {
  flour: { ...ingredient, name: 'strong white flour', flour: true, contains: ['wheat'] },
  water: { ...ingredient, name: 'water' },
  salt: { ...ingredient, name: 'salt' },
  yeast: { ...ingredient, name: 'fresh yeast' },
  oil: { ...ingredient, name: 'rapeseed oil' },
  cream: { ...ingredient, name: 'cream', storage: 'chilled', contains: ['milk'], animalOrigin: true },
  egg: { ...ingredient, name: 'egg, liquid', storage: 'chilled', contains: ['eggs'], animalOrigin: true },
  syrup: { ...ingredient, name: 'golden syrup' },
  crumb: { ...ingredient, name: 'white crumb', contains: ['wheat'] },
  lemon: { ...ingredient, name: 'lemon juice' },
  butter: { ...ingredient, name: 'butter', storage: 'chilled', contains: ['milk'], animalOrigin: true },
  sugar: { ...ingredient, name: 'caster sugar' },
  almond: { ...ingredient, name: 'ground almond', contains: ['almond'] },
  flaked: { ...ingredient, name: 'flaked almond', contains: ['almond'] },
  jam: { ...ingredient, name: 'raspberry jam' },
  pastry: { ...ingredient, name: 'sweet pastry', contains: ['wheat', 'milk'] },
  tinOil: { ...ingredient, name: 'tin oil', type: 'aid' },
  whiteDough: { ...intermediate, name: 'white dough' },
  treacleFilling: { ...intermediate, name: 'treacle filling' },
  frangipane: { ...intermediate, name: 'frangipane' },
  tartletFilled: { ...intermediate, name: 'filled tartlets' },
  tin: { ...product, name: 'white tin 800 g' },
  bloomer: { ...product, name: 'bloomer 400 g' },
  bap: { ...product, name: 'bap' },
  tart: { ...product, name: 'treacle tart' },
  tartlet: { ...product, name: 'almond tartlet' },
} satisfies Record<string, Specification>;
export type Material = keyof typeof catalogue;

/** Stations, ovens and stores of the site; decks stand within their oven. */
export const placeSorts = {
  mixer: 'mixer',
  smallMixer: 'mixer',
  bench: 'station',
  deckOven: 'oven',
  rackOven: 'oven',
  prover: 'prover',
  fridge: 'fridge',
  freezer: 'freezer',
  counter: 'counter',
} as const;
export type Place = keyof typeof placeSorts;

const customer = { type: 'customer', vulnerable: false, unattended: false } as const;
export const parties = {
  eggVan: { ...customer, type: 'supplier', name: 'Dairy and egg van', phone: '01632 960001' },
  nuts: { ...customer, type: 'supplier', name: 'Nut importer', phone: '01632 960002' },
  cafeA: { ...customer, name: 'Café at the lock', phone: '01632 960011' },
  cafeB: { ...customer, name: 'Station café', phone: '01632 960012' },
  cafeC: { ...customer, name: 'Garden café', phone: '01632 960013' },
  cafeD: { ...customer, name: 'Early café', phone: '01632 960014', unattended: true },
  school: { ...customer, name: 'Primary school', phone: '01632 960015', vulnerable: true },
  foodBank: { ...customer, type: 'donation', name: 'Food bank', phone: '01632 960016', vulnerable: true },
} satisfies Record<string, Omit<PayloadFor<'party-accepted'>, 'party'> & { readonly name: string; readonly phone: string }>;
export type Party = keyof typeof parties;

type Ids<K extends string> = Readonly<Record<K, string>>;
const idsFor = <K extends string>(of: Readonly<Record<K, unknown>>, make: () => string): Ids<K> =>
  Object.fromEntries(Object.keys(of).map((key) => [key, make()])) as Record<K, string>; // its keys are those of `of`

export const idsFrom = (make: () => string) => ({
  materials: idsFor(catalogue, make),
  parties: idsFor(parties, make),
  formulas: idsFor({ white: 0, treacle: 0, frangipane: 0, tartlets: 0 }, make),
  plan: make(),
});
export const newIds = (at: Date): BakehouseIds => idsFrom(() => uuidv7(at));
export type BakehouseIds = ReturnType<typeof idsFrom>;

export type FormulaKey = keyof BakehouseIds['formulas'];
type Lines = readonly (readonly [Material, grams: number])[];

/** Formulas in the order in which they can be approved; grams a make, from the demo's table. */
export function formulasOf({ materials, formulas }: BakehouseIds) {
  const line = ([key, grams]: Lines[number], madeBy: string | null = null) => ({
    material: materials[key],
    name: catalogue[key].name,
    mg: grams * 1000,
    flour: catalogue[key].flour,
    madeBy,
  });
  const step = (type: 'mix' | 'divide' | 'bake') => ({
    key: type,
    type,
    name: type,
    minutes: null,
    maxMinutes: null,
    speed: null,
    target: null,
    place: null,
  });
  const makes = (key: Material, grams: number, pieces: number, celsius: number, minutes: number) => ({
    product: materials[key],
    name: catalogue[key].name,
    scalingMg: grams * 1000,
    pieces,
    bakedMg: Math.round(grams * 885),
    lossPpm: 115_000,
    lifeDays: 3,
    dateType: 'best-before' as const,
    ovens: [{ oven: 'oven', celsius, finishCelsius: null, minutes, steamSeconds: 0 }],
    additions: [],
  });
  const content = (key: Material, lines: FormulaContent['lines'], products: FormulaContent['products'] = []): FormulaContent => ({
    lines,
    products,
    steps: products.length > 0 ? [step('mix'), step('divide'), step('bake')] : [step('mix')],
    makes: materials[key],
    doughCelsius: null,
    frictionCelsius: null,
    minutesSlow: null,
    minutesFast: null,
    lifeHours: null,
    rework: null,
  });
  const of = (lines: Lines) => lines.map((l) => line(l));
  const white = content(
    'whiteDough',
    of([
      ['flour', 25_000],
      ['water', 15_000],
      ['salt', 450],
      ['yeast', 500],
      ['oil', 500],
    ]),
    [makes('tin', 910, 20, 225, 30), makes('bloomer', 465, 12, 230, 28), makes('bap', 75, 216, 205, 11)],
  );
  const treacle: Lines = [
    ['syrup', 4500],
    ['crumb', 1350],
    ['egg', 540],
    ['butter', 450],
    ['cream', 300],
    ['lemon', 240],
    ['salt', 15],
    ['pastry', 3900],
  ];
  return [
    [
      'white',
      'dough',
      'white dough',
      { ...white, doughCelsius: { min: '24.5', max: '27.5' }, frictionCelsius: '14', minutesSlow: 4, minutesFast: 6 },
    ],
    ['treacle', 'filling', 'treacle tarts', content('treacleFilling', of(treacle), [makes('tart', 740, 15, 165, 38)])],
    [
      'frangipane',
      'filling',
      'frangipane',
      content(
        'frangipane',
        of([
          ['almond', 1000],
          ['butter', 1000],
          ['sugar', 1000],
          ['egg', 900],
          ['flour', 250],
        ]),
      ),
    ],
    [
      'tartlets',
      'filling',
      'almond tartlets',
      content(
        'tartletFilled',
        [
          ...of([['pastry', 4812]]),
          line(['frangipane', 4150], formulas.frangipane),
          ...of([
            ['jam', 960],
            ['flaked', 240],
          ]),
        ],
        [makes('tartlet', 123, 80, 170, 24)],
      ),
    ],
  ] as const satisfies readonly (readonly [FormulaKey, type: FormulaDraft['type'], name: string, content: FormulaContent])[];
}

export const pointKeys = ['dough', 'tin-core', 'bloomer-core', 'bap-core', 'tart-core', 'tartlet-core', 'chilled-in'] as const;
export type PointKey = (typeof pointKeys)[number];

/** The plan's control points: figures of the scenarios, not validated by anybody. */
export function pointsOf({ materials, formulas }: BakehouseIds) {
  const point = (key: PointKey, of: Partial<PointContent> & Pick<PointContent, 'limit'>): PointContent => ({
    key,
    name: key,
    step: 'bake',
    class: 'ccp',
    hazard: 'survival of germs',
    formulas: [],
    products: [],
    measured: 'core',
    parameter: 'core temperature',
    holdSeconds: null,
    frequency: 'each-load',
    ifNotMonitored: 'hold',
    ifOutside: 'hold',
    correctiveAction: 'back in the oven',
    basis: 'for tests; nobody validated it',
    validated: null,
    ...of,
  });
  const core = (key: PointKey, product_: Material, min: string, holdSeconds: string | null = null) =>
    point(key, { products: [materials[product_]], limit: { type: 'range', min, max: null, unit: 'degC' }, holdSeconds });
  return [
    point('dough', {
      step: 'mix',
      class: 'process-check',
      ifOutside: 'note',
      ifNotMonitored: 'record',
      measured: 'dough',
      parameter: 'dough temperature',
      frequency: 'each-make',
      formulas: [formulas.white],
      limit: { type: 'range', min: '24.5', max: '27.5', unit: 'degC' },
    }),
    core('tin-core', 'tin', '94'),
    core('bloomer-core', 'bloomer', '93'),
    core('bap-core', 'bap', '92'),
    core('tart-core', 'tart', '75'),
    core('tartlet-core', 'tartlet', '75', '30'),
    point('chilled-in', {
      step: 'receive',
      measured: 'between-packs',
      parameter: 'temperature on arrival',
      frequency: 'each-delivery',
      limit: { type: 'range', min: null, max: '8', unit: 'degC' },
    }),
  ];
}
