import type { FormulaContent, FormulaDraft } from '@bakehouse/records';
import type { MaterialKey } from './materials.js';

export interface ProductData {
  readonly key: MaterialKey;
  readonly grams: number;
  readonly pieces: number;
  readonly lossPercent: number;
  readonly oven: readonly [name: string, celsius: number, minutes: number] | null;
}
export interface FormulaData {
  readonly name: string;
  readonly type: FormulaDraft['type'];
  readonly makes: MaterialKey;
  /** A line that is made here names the formula that makes it. */
  readonly lines: readonly (readonly [material: MaterialKey, grams: number, madeBy?: string])[];
  readonly steps: readonly (readonly [type: StepType, minutes: number | null, most: number | null])[];
  readonly products: readonly ProductData[];
  readonly dough?: { readonly min: string; readonly max: string };
  readonly friction?: string;
  readonly minutes?: readonly [slow: number, fast: number];
  readonly lifeHours?: number;
  /** What may be put back into it. The bin is topped up on what is in it, so no age of crumb can be kept; a filling has no flour to be a share of. */
  readonly rework?: { readonly sources: readonly MaterialKey[]; readonly maxTimes: number };
  readonly additions?: Readonly<Partial<Record<MaterialKey, readonly (readonly [MaterialKey, mgPerPiece: number | null])[]>>>;
}
/** The steps that this house bakes by. */
export type StepType = Exclude<FormulaContent['steps'][number]['type'], 'shape' | 'pack'>;

const product = (key: MaterialKey, grams: number, pieces: number, lossPercent: number, oven: ProductData['oven']): ProductData => ({
  key,
  grams,
  pieces,
  lossPercent,
  oven,
});

/** In the order in which they can be approved. Grams a make as the house bakes; the figures of a demo, not of anybody's bread. */
export const formulas = {
  leaven: {
    name: 'Rye leaven',
    type: 'starter',
    makes: 'leaven',
    lines: [
      ['rye', 1_090],
      ['water', 1_090],
    ],
    steps: [
      ['mix', null, null],
      ['rest', 1_200, 1_560],
    ],
    products: [],
    lifeHours: 30,
  },
  sourdough: {
    name: 'Sourdough',
    type: 'dough',
    makes: 'sourdough',
    lines: [
      ['leaven', 2_180, 'leaven'],
      ['white', 8_720],
      ['wholemeal', 1_090],
      ['water', 6_758],
      ['salt', 218],
    ],
    steps: [
      ['mix', 8, null],
      ['rest', 210, 240],
      ['divide', 20, null],
      ['retard', 660, 960],
      ['bake', 42, null],
    ],
    products: [product('loaf', 940, 20, 14, ['Deck oven', 240, 42])],
    dough: { min: '22.5', max: '25.5' },
    friction: '6',
    minutes: [6, 2],
  },
  white: {
    name: 'White dough',
    type: 'dough',
    makes: 'whiteDough',
    lines: [
      ['white', 25_000],
      ['water', 15_000],
      ['salt', 450],
      ['yeast', 500],
      ['oil', 500],
    ],
    steps: [
      ['mix', 10, null],
      ['rest', 45, 60],
      ['divide', 20, null],
      ['prove', 55, 70],
      ['bake', 30, null],
    ],
    products: [
      product('tin', 910, 20, 11.5, ['Deck oven', 225, 30]),
      product('bloomer', 465, 12, 11.5, ['Deck oven', 230, 28]),
      product('bap', 75, 216, 12, ['Rack oven', 205, 11]),
    ],
    dough: { min: '24.5', max: '27.5' },
    friction: '14',
    minutes: [4, 6],
    additions: { tin: [['tinOil', null]], bloomer: [['seeds', 12_000]] },
  },
  baguette: {
    name: 'Baguette dough',
    type: 'dough',
    makes: 'baguetteDough',
    lines: [
      ['white', 12_000],
      ['water', 7_920],
      ['salt', 240],
      ['yeast', 120],
      ['malt', 36],
      ['whiteDough', 1_200, 'white'],
    ],
    steps: [
      ['mix', 9, null],
      ['rest', 60, 90],
      ['divide', 20, null],
      ['prove', 40, 55],
      ['bake', 15, null],
      ['cool', 60, 90],
      ['freeze', 180, 240],
    ],
    products: [product('baguette', 310, 69, 9, ['Rack oven', 210, 15])],
    dough: { min: '22.5', max: '25.5' },
    friction: '12',
    minutes: [5, 4],
  },
  custard: {
    name: 'Custard',
    type: 'filling',
    makes: 'custard',
    lines: [
      ['milk', 6_000],
      ['sugar', 1_200],
      ['yolk', 960],
      ['cornflour', 480],
      ['butter', 300],
      ['vanilla', 30],
      ['salt', 6],
    ],
    steps: [
      ['cook', 20, null],
      ['cool', 75, 90],
    ],
    products: [],
    lifeHours: 24,
  },
  slices: {
    name: 'Custard slices',
    type: 'filling',
    makes: 'slicesFilled',
    lines: [
      ['custard', 8_640, 'custard'],
      ['puff', 6_286],
      ['icing', 1_080],
    ],
    steps: [
      ['fill', null, null],
      ['cool', 60, null],
    ],
    products: [product('slice', 195, 72, 0, null)],
  },
  porkFilling: {
    name: 'Pork and leek filling',
    type: 'filling',
    makes: 'porkFilling',
    lines: [
      ['pork', 5_000],
      ['leek', 1_000],
      ['rusk', 400],
      ['water', 400],
      ['seasoning', 125],
      ['salt', 60],
    ],
    steps: [['mix', 6, null]],
    products: [],
    lifeHours: 24,
  },
  rolls: {
    name: 'Pork and leek rolls',
    type: 'filling',
    makes: 'rollsFilled',
    lines: [
      ['porkFilling', 6_900, 'porkFilling'],
      ['shortPastry', 4_200],
    ],
    steps: [
      ['fill', null, null],
      ['wash', null, null],
      ['bake', 27, null],
    ],
    products: [product('roll', 185, 60, 12, ['Rack oven', 200, 27])],
    additions: { roll: [['wash', null]] },
  },
  frangipane: {
    name: 'Frangipane',
    type: 'filling',
    makes: 'frangipane',
    lines: [
      ['almond', 1_000],
      ['butter', 1_000],
      ['sugar', 1_000],
      ['egg', 900],
      ['white', 250],
    ],
    steps: [['mix', 8, null]],
    products: [],
    lifeHours: 48,
  },
  tartlets: {
    name: 'Almond tartlets',
    type: 'filling',
    makes: 'tartletsFilled',
    lines: [
      ['sweetPastry', 4_812],
      ['frangipane', 4_150, 'frangipane'],
      ['jam', 960],
      ['flaked', 240],
    ],
    steps: [
      ['fill', null, null],
      ['bake', 24, null],
    ],
    products: [product('tartlet', 123, 80, 8, ['Rack oven', 170, 24])],
  },
  tarts: {
    name: 'Treacle tarts',
    type: 'filling',
    makes: 'tartsFilled',
    lines: [
      ['syrup', 4_500],
      ['crumb', 1_350],
      ['egg', 540],
      ['butter', 450],
      ['cream', 300],
      ['lemon', 240],
      ['salt', 15],
      ['sweetPastry', 3_900],
    ],
    steps: [
      ['mix', 6, null],
      ['fill', null, null],
      ['bake', 38, null],
    ],
    products: [product('tart', 740, 15, 6, ['Rack oven', 165, 38])],
    rework: { sources: ['crumb'], maxTimes: 1 },
  },
  wash: {
    name: 'Egg wash',
    type: 'wash',
    makes: 'wash',
    lines: [
      ['egg', 300],
      ['milk', 100],
    ],
    steps: [['mix', null, null]],
    products: [],
    lifeHours: 4,
  },
} as const satisfies Record<string, FormulaData>;
export type FormulaKey = keyof typeof formulas;
export const formulaKeys = Object.keys(formulas) as FormulaKey[]; // its own keys, in the order written
