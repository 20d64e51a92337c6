import type { Allergen } from '@bakehouse/kernel';
import type { PayloadFor } from '@bakehouse/records';
import type { PartyKey } from './parties.js';

type Specification = PayloadFor<'specification-accepted'>;
export interface MaterialData extends Readonly<
  Pick<Specification, 'name' | 'type' | 'countedIn' | 'storage' | 'lifeDays' | 'lifeOpenedHours' | 'flour' | 'animalOrigin'>
> {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
}
/** How a material comes in: from whom, so much at a time, ordered when less than that is left; what its lot codes begin with, null where it has none. */
export interface BoughtData {
  readonly from: PartyKey;
  readonly grams: number;
  readonly below: number;
  readonly code: string | null;
  readonly asWritten: string;
  readonly useByDays?: number;
}

const dry = {
  type: 'ingredient',
  countedIn: 'mass',
  storage: 'ambient',
  lifeDays: null,
  lifeOpenedHours: null,
  contains: [],
  mayContain: [],
  flour: false,
  animalOrigin: false,
} as const satisfies Omit<MaterialData, 'name'>;
const chilled = { ...dry, storage: 'chilled' } as const;
const made = { ...dry, type: 'intermediate' } as const;
const sold = { ...dry, type: 'product', countedIn: 'pieces' } as const;

/** Every material of the demo. Allergens as an invented label says them; a real house reads its own. */
export const materials = {
  white: { ...dry, name: 'Strong white flour', flour: true, contains: ['wheat'], lifeDays: 180 },
  wholemeal: { ...dry, name: 'Stoneground wholemeal', flour: true, contains: ['wheat'], lifeDays: 90 },
  rye: { ...dry, name: 'Stoneground rye', flour: true, contains: ['rye'], mayContain: ['wheat'], lifeDays: 90 },
  water: { ...dry, name: 'Water' },
  salt: { ...dry, name: 'Sea salt, fine' },
  yeast: { ...chilled, name: 'Fresh yeast', lifeDays: 21 },
  oil: { ...dry, name: 'Rapeseed oil' },
  malt: { ...dry, name: 'Malt flour', contains: ['barley'] },
  seeds: { ...dry, name: 'Seed mix', contains: ['sesame'] },
  tinOil: { ...dry, name: 'Tin oil', type: 'aid' },
  milk: { ...chilled, name: 'Whole milk', contains: ['milk'], animalOrigin: true, lifeOpenedHours: 72 },
  sugar: { ...dry, name: 'Caster sugar' },
  cornflour: { ...dry, name: 'Cornflour' },
  yolk: { ...chilled, name: 'Egg yolk, pasteurised', contains: ['eggs'], animalOrigin: true, lifeOpenedHours: 48 },
  butter: { ...chilled, name: 'Butter, unsalted', contains: ['milk'], animalOrigin: true },
  vanilla: { ...dry, name: 'Vanilla paste' },
  icing: { ...dry, name: 'Icing sugar' },
  puff: { ...chilled, name: 'Puff pastry sheets', contains: ['wheat', 'milk'], animalOrigin: true },
  pork: { ...chilled, name: 'Minced pork shoulder', animalOrigin: true },
  leek: { ...chilled, name: 'Leek, washed' },
  rusk: { ...dry, name: 'Rusk', contains: ['wheat'] },
  seasoning: { ...dry, name: 'Sausage seasoning', mayContain: ['mustard'] },
  shortPastry: { ...chilled, name: 'Shortcrust pastry', contains: ['wheat', 'milk'], animalOrigin: true },
  sweetPastry: { ...chilled, name: 'Sweet pastry', contains: ['wheat', 'milk', 'eggs'], animalOrigin: true },
  almond: { ...dry, name: 'Ground almond', contains: ['almond'] },
  flaked: { ...dry, name: 'Flaked almond', contains: ['almond'] },
  jam: { ...dry, name: 'Raspberry jam' },
  egg: { ...chilled, name: 'Whole egg, liquid', contains: ['eggs'], animalOrigin: true, lifeOpenedHours: 48 },
  syrup: { ...dry, name: 'Golden syrup' },
  lemon: { ...dry, name: 'Lemon juice', contains: ['sulphites'] },
  cream: { ...chilled, name: 'Double cream', contains: ['milk'], animalOrigin: true },
  leaven: { ...made, name: 'Rye leaven' },
  sourdough: { ...made, name: 'Sourdough' },
  whiteDough: { ...made, name: 'White dough' },
  baguetteDough: { ...made, name: 'Baguette dough' },
  custard: { ...made, name: 'Custard' },
  slicesFilled: { ...made, name: 'Custard slices, filled' },
  porkFilling: { ...made, name: 'Pork and leek filling' },
  rollsFilled: { ...made, name: 'Pork and leek rolls, raw' },
  frangipane: { ...made, name: 'Frangipane' },
  tartletsFilled: { ...made, name: 'Almond tartlets, filled' },
  tartsFilled: { ...made, name: 'Treacle tarts, filled' },
  crumb: { ...made, name: 'White crumb' },
  wash: { ...made, name: 'Egg wash' },
  loaf: { ...sold, name: 'Sourdough loaf 800 g', lifeDays: 4 },
  tin: { ...sold, name: 'White tin 800 g', lifeDays: 3 },
  bloomer: { ...sold, name: 'Seeded bloomer 400 g', lifeDays: 2 },
  bap: { ...sold, name: 'Bap', lifeDays: 2 },
  baguette: { ...sold, name: 'Part-baked baguette, frozen', storage: 'frozen', lifeDays: 90 },
  slice: { ...sold, name: 'Custard slice', storage: 'chilled', lifeDays: 2 },
  roll: { ...sold, name: 'Pork and leek roll', lifeDays: 1 },
  tartlet: { ...sold, name: 'Almond tartlet', lifeDays: 5 },
  tart: { ...sold, name: 'Treacle tart', lifeDays: 7 },
} as const satisfies Record<string, MaterialData>;
export type MaterialKey = keyof typeof materials;

export const bought = {
  white: { from: 'flourVan', grams: 350_000, below: 300_000, code: 'HM', asWritten: '14 × 25 kg' },
  wholemeal: { from: 'stoneMill', grams: 25_000, below: 9_000, code: 'Q', asWritten: '25 kg' },
  rye: { from: 'stoneMill', grams: 25_000, below: 9_000, code: 'Q', asWritten: '25 kg' },
  salt: { from: 'cashAndCarry', grams: 25_000, below: 5_000, code: null, asWritten: '25 kg' },
  yeast: { from: 'dairyVan', grams: 6_000, below: 2_500, code: 'Y', asWritten: '6 × 1 kg' },
  oil: { from: 'wholesaler', grams: 15_000, below: 4_500, code: 'OB', asWritten: '15 kg drum' },
  malt: { from: 'flourVan', grams: 5_000, below: 500, code: 'HM', asWritten: '5 kg' },
  seeds: { from: 'wholesaler', grams: 5_000, below: 1_500, code: 'OB', asWritten: '5 kg' },
  tinOil: { from: 'wholesaler', grams: 10_000, below: 500, code: 'OB', asWritten: '10 l' },
  milk: { from: 'dairyVan', grams: 16_000, below: 7_000, code: 'D', asWritten: '16 l', useByDays: 8 },
  sugar: { from: 'cashAndCarry', grams: 25_000, below: 14_000, code: null, asWritten: '25 kg' },
  cornflour: { from: 'cashAndCarry', grams: 10_000, below: 2_000, code: null, asWritten: '10 kg' },
  yolk: { from: 'dairyVan', grams: 3_000, below: 1_100, code: 'E', asWritten: '3 × 1 kg', useByDays: 9 },
  butter: { from: 'dairyVan', grams: 15_000, below: 5_000, code: 'D', asWritten: '60 × 250 g', useByDays: 40 },
  vanilla: { from: 'wholesaler', grams: 1_000, below: 100, code: 'OB', asWritten: '1 kg' },
  icing: { from: 'cashAndCarry', grams: 10_000, below: 4_500, code: null, asWritten: '10 kg' },
  puff: { from: 'wholesaler', grams: 30_000, below: 14_000, code: 'OB', asWritten: '3 × 10 kg', useByDays: 30 },
  pork: { from: 'butcher', grams: 5_500, below: 5_000, code: 'MS', asWritten: '5.5 kg', useByDays: 3 },
  leek: { from: 'wholesaler', grams: 4_000, below: 2_500, code: 'OB', asWritten: '4 kg', useByDays: 9 },
  rusk: { from: 'butcher', grams: 5_000, below: 800, code: 'MS', asWritten: '5 kg' },
  seasoning: { from: 'butcher', grams: 2_000, below: 200, code: 'MS', asWritten: '2 kg' },
  shortPastry: { from: 'wholesaler', grams: 20_000, below: 8_500, code: 'OB', asWritten: '2 × 10 kg', useByDays: 30 },
  sweetPastry: { from: 'wholesaler', grams: 60_000, below: 40_000, code: 'OB', asWritten: '6 × 10 kg', useByDays: 30 },
  flaked: { from: 'nuts', grams: 5_000, below: 2_000, code: 'N', asWritten: '5 kg' },
  jam: { from: 'wholesaler', grams: 12_500, below: 4_800, code: 'OB', asWritten: '12.5 kg pail' },
  egg: { from: 'dairyVan', grams: 8_000, below: 3_000, code: 'E', asWritten: '8 × 1 kg', useByDays: 8 },
  syrup: { from: 'wholesaler', grams: 25_000, below: 16_000, code: 'OB', asWritten: '25 kg' },
  lemon: { from: 'cashAndCarry', grams: 3_000, below: 1_000, code: null, asWritten: '3 × 1 l' },
  cream: { from: 'dairyVan', grams: 2_000, below: 700, code: 'D', asWritten: '4 × 500 ml', useByDays: 9 },
} as const satisfies Partial<Record<MaterialKey, BoughtData>>;
export type BoughtKey = keyof typeof bought;
