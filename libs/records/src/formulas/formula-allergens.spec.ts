import { describe, expect, it } from '@jest/globals';
import { formulaAllergens, materialAllergens, productAllergens, type AllergenSources, type Declared } from './formula-allergens.js';
import { formulaApproved } from './formula-approved.js';
import { formulaContent, type FormulaContent } from '../rows/formula-content.js';

const example = formulaContent.parse(formulaApproved.examples[0].content);
const line = (name: string, madeBy: string | null = null) => ({ material: name, name, mg: 1, flour: false, madeBy });
const of = (...lines: FormulaContent['lines']): FormulaContent => ({ ...example, lines });
const checked = { on: '2026-03-03' };
const says = (contains: Declared['contains'], mayContain: Declared['mayContain'] = [], on: Declared['checked'] = checked): Declared => ({
  contains,
  mayContain,
  checked: on,
});

const specifications: Record<string, readonly Declared[]> = {
  flour: [says(['wheat'], ['soybeans'])],
  water: [says([])],
  almond: [says(['almond'], ['hazelnut'])],
  butter: [says(['milk'])],
  oil: [says([])],
  tinOil: [says(['soybeans'])],
  margarine: [says([], ['milk']), says(['soybeans'], [], { on: '2025-12-01' })],
  newFlour: [says(['wheat'], [], null)],
  tartlet: [says([], [], null)],
  nothing: [says([], [], null)],
};
const formulas: Record<string, FormulaContent> = {
  frangipane: of(line('almond'), line('butter')),
  tartlet: of(line('frangipane', 'frangipane')),
  starter: of(line('flour'), line('starter', 'starter')),
  a: of(line('b', 'b')),
  b: of(line('a', 'a'), line('almond')),
};
const sources: AllergenSources = {
  specificationsOf: (material) => specifications[material] ?? [],
  contentOf: (formula) => formulas[formula],
  formulasOf: (material) => ({ tartlet: ['tartlet'], nothing: [] })[material],
};
const none: readonly string[] = [];

describe('formulaAllergens', () => {
  it.each<[string, FormulaContent, object]>([
    [
      'what its lines say',
      of(line('flour'), line('water')),
      { contains: ['wheat'], mayContain: ['soybeans'], notKnown: none, checkedSince: '2026-03-03' },
    ],
    [
      'what is made here, two formulas deep',
      of(line('tartlet', 'tartlet')),
      { contains: ['milk', 'almond'], mayContain: ['hazelnut'], notKnown: none, checkedSince: '2026-03-03' },
    ],
    [
      'contains wins over may contain',
      of(line('flour'), line('tinOil')),
      { contains: ['wheat', 'soybeans'], mayContain: [], notKnown: none, checkedSince: '2026-03-03' },
    ],
    [
      'a starter refreshed from itself',
      of(line('starter', 'starter')),
      { contains: ['wheat'], mayContain: ['soybeans'], notKnown: none, checkedSince: '2026-03-03' },
    ],
    [
      'two formulas that take of each other',
      of(line('a', 'a')),
      { contains: ['almond'], mayContain: ['hazelnut'], notKnown: none, checkedSince: '2026-03-03' },
    ],
    [
      'every supplier’s specification',
      of(line('margarine')),
      { contains: ['soybeans'], mayContain: ['milk'], notKnown: none, checkedSince: '2025-12-01' },
    ],
    [
      'no specification, no formula',
      of(line('flour'), line('mystery'), line('lost', 'lost')),
      { contains: ['wheat'], mayContain: ['soybeans'], notKnown: ['mystery', 'lost'], checkedSince: null },
    ],
    [
      'an ingredient that nobody checked is not known, and what it names counts',
      of(line('newFlour'), line('water')),
      { contains: ['wheat'], mayContain: [], notKnown: ['newFlour'], checkedSince: null },
    ],
    [
      'what is made here and named without its formula, by its formulas',
      of(line('tartlet')),
      { contains: ['milk', 'almond'], mayContain: ['hazelnut'], notKnown: none, checkedSince: '2026-03-03' },
    ],
    ['what is made here by no formula', of(line('nothing')), { contains: [], mayContain: [], notKnown: ['nothing'], checkedSince: null }],
    ['nothing at all speaks of no absence', of(), { contains: [], mayContain: [], notKnown: none, checkedSince: null }],
  ])('%s', (_what, content, answer) => {
    expect(formulaAllergens(content, sources)).toEqual(answer);
  });
});

describe('materialAllergens', () => {
  it('is by formula for what is made here, by specification for what is bought', () => {
    expect(materialAllergens('tartlet', 'tartlet', sources)).toMatchObject({ contains: ['milk', 'almond'], notKnown: [] });
    expect(materialAllergens('oil', 'oil', sources)).toEqual({ contains: [], mayContain: [], notKnown: [], checkedSince: '2026-03-03' });
    expect(materialAllergens('newFlour', 'new flour', sources)).toMatchObject({ notKnown: ['new flour'], checkedSince: null });
  });
});

describe('productAllergens', () => {
  const product = (id: string, material: string): FormulaContent['products'] =>
    example.products.map((p) => ({
      ...p,
      product: id,
      additions: [{ material, name: material, mgPerPiece: null, after: 'before-oven' }],
    }));
  const dough: FormulaContent = {
    ...of(line('water')),
    products: [...product('tin', 'tinOil'), ...product('bap', 'oil'), ...product('bun', 'glaze')],
  };

  // Tin oil with soya lecithin puts an allergen into a loaf whose recipe has none.
  it('adds what goes on or under that product only', () => {
    expect(productAllergens(dough, 'tin', sources)).toEqual({
      contains: ['soybeans'],
      mayContain: [],
      notKnown: [],
      checkedSince: '2026-03-03',
    });
    expect(productAllergens(dough, 'bap', sources)).toEqual({ contains: [], mayContain: [], notKnown: [], checkedSince: '2026-03-03' });
    expect(productAllergens(dough, 'bun', sources)).toEqual({ contains: [], mayContain: [], notKnown: ['glaze'], checkedSince: null });
    expect(productAllergens(dough, 'cake', sources)).toBeUndefined();
  });
});
