import { madeOf, starterMaterials as m, type StarterFormula } from './starter.js';

const yours =
  'The oven, its minutes and the days it keeps are yours to say. The figures are common practice, no source: bake a trial first.';
const steps = (mix: number, rest: number, prove: number): StarterFormula['steps'] => [
  { type: 'mix', name: 'Mix', minutes: mix },
  { type: 'rest', name: 'Rest in bulk', minutes: rest },
  { type: 'divide', name: 'Divide and shape', minutes: null },
  { type: 'prove', name: 'Prove', minutes: prove },
  { type: 'bake', name: 'Bake', minutes: null },
  { type: 'cool', name: 'Cool on racks', minutes: null },
];

/**
 * Formulas to begin a draft with. They were made up for this purpose; nobody has baked, approved or validated them. Shares are of all flours together, in
 * hundredths of a percent.
 */
export const starterFormulas: readonly StarterFormula[] = [
  {
    key: 'tin-loaf',
    name: 'Plain tin loaf',
    says: `A lean white loaf without fat, 800 g baked. ${yours}`,
    flourMg: 11_500_000,
    lines: [
      { of: m.flour, share: 100_00 },
      { of: m.water, share: 62_00 },
      { of: m.salt, share: 1_90 },
      { of: m.yeast, share: 1_60 },
    ],
    makes: madeOf('Plain tin dough', 'intermediate'),
    product: madeOf('Plain tin loaf 800 g', 'product'),
    scalingMg: 905_000,
    bakedMg: 800_000,
    pieces: 21,
    doughCelsius: { min: '24.5', max: '27.5' },
    steps: steps(11, 60, 60),
    minutesSlow: 5,
    minutesFast: 6,
  },
  {
    key: 'bap',
    name: 'Soft bap',
    says: `A soft roll with a little oil and sugar, 75 g baked. ${yours}`,
    flourMg: 8_000_000,
    lines: [
      { of: m.flour, share: 100_00 },
      { of: m.water, share: 57_00 },
      { of: m.oil, share: 4_00 },
      { of: m.sugar, share: 3_00 },
      { of: m.yeast, share: 2_80 },
      { of: m.salt, share: 1_80 },
    ],
    makes: madeOf('Soft bap dough', 'intermediate'),
    product: madeOf('Soft bap 75 g', 'product'),
    scalingMg: 85_000,
    bakedMg: 75_000,
    pieces: 158,
    doughCelsius: { min: '25', max: '28' },
    steps: steps(10, 40, 50),
    minutesSlow: 4,
    minutesFast: 6,
  },
  {
    key: 'sweet-bun',
    name: 'Plain sweet bun',
    says: `An enriched bun with milk, egg and butter, 62 g baked, without filling or glaze. ${yours}`,
    flourMg: 6_000_000,
    lines: [
      { of: m.flour, share: 100_00 },
      { of: m.milk, share: 38_00 },
      { of: m.egg, share: 12_00 },
      { of: m.sugar, share: 14_00 },
      { of: m.butter, share: 12_00 },
      { of: m.yeast, share: 4_50 },
      { of: m.salt, share: 1_50 },
    ],
    makes: madeOf('Plain sweet dough', 'intermediate'),
    product: madeOf('Plain sweet bun', 'product'),
    scalingMg: 70_000,
    bakedMg: 62_000,
    pieces: 156,
    doughCelsius: { min: '25', max: '28' },
    steps: steps(12, 50, 45),
    minutesSlow: 5,
    minutesFast: 7,
  },
];
