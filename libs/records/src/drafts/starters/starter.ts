import type { FormulaContent } from '../../rows/formula-content.js';
import type { MaterialType } from '../../rows/catalogue.js';

/** A material that a starter names: by its name here, or by others that bakers give it. */
export interface StarterMaterial {
  readonly name: string;
  readonly also: readonly string[];
  readonly type: MaterialType;
  readonly storage: 'ambient' | 'chilled';
  readonly flour: boolean;
  readonly animalOrigin: boolean;
}

export const starterKeys = ['tin-loaf', 'bap', 'sweet-bun'] as const;
export type StarterKey = (typeof starterKeys)[number];

export interface StarterFormula {
  readonly key: StarterKey;
  readonly name: string;
  /** What it is, in a sentence, with what is left for the house to decide. */
  readonly says: string;
  readonly flourMg: number;
  /** Of all flours together, in hundredths of a percent. */
  readonly lines: readonly { readonly of: StarterMaterial; readonly share: number }[];
  readonly makes: StarterMaterial;
  readonly product: StarterMaterial;
  readonly scalingMg: number;
  readonly bakedMg: number;
  readonly pieces: number;
  readonly doughCelsius: { readonly min: string; readonly max: string };
  readonly steps: readonly {
    readonly type: FormulaContent['steps'][number]['type'];
    readonly name: string;
    readonly minutes: number | null;
  }[];
  readonly minutesSlow: number;
  readonly minutesFast: number;
}

const bought = (name: string, more: Partial<StarterMaterial> = {}): StarterMaterial => ({
  name,
  also: [],
  type: 'ingredient',
  storage: 'ambient',
  flour: false,
  animalOrigin: false,
  ...more,
});
/** What is made here: the dough itself, and what comes of it. */
export const madeOf = (name: string, type: 'intermediate' | 'product'): StarterMaterial => bought(name, { type });

export const starterMaterials = {
  flour: bought('Strong white flour', {
    also: ['White flour', 'Bread flour', 'White bread flour', 'Strong white bread flour'],
    flour: true,
  }),
  water: bought('Water', { also: ['Tap water', 'Mains water'] }),
  salt: bought('Salt', { also: ['Fine salt', 'Sea salt', 'Table salt'] }),
  yeast: bought('Fresh yeast', { also: ['Yeast', 'Baker’s yeast', 'Compressed yeast', 'Yeast, fresh'], storage: 'chilled' }),
  oil: bought('Rapeseed oil', { also: ['Vegetable oil', 'Oil'] }),
  sugar: bought('Caster sugar', { also: ['Sugar', 'White sugar', 'Granulated sugar'] }),
  butter: bought('Butter', { also: ['Unsalted butter', 'Butter, unsalted'], storage: 'chilled', animalOrigin: true }),
  egg: bought('Whole egg', { also: ['Egg', 'Eggs', 'Egg, liquid', 'Liquid egg'], storage: 'chilled', animalOrigin: true }),
  milk: bought('Whole milk', { also: ['Milk', 'Fresh milk'], storage: 'chilled', animalOrigin: true }),
} as const;
