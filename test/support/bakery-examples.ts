import { expect } from '@jest/globals';
import { near, type Example } from './example.js';

const values = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const gs = '\u001d';

/** Statistics, weights, formulas, water, labels and codes. */
export const bakeryExamples: readonly Example[] = [
  [
    'individuals-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.2',
    { values },
    { centre: near(50.81), limits: { lower: near(45.8159, 4), upper: near(55.8041, 4) } },
  ],
  [
    'xbar-r-chart',
    'A2 of 5 is 0.577, D4 is 2.115',
    { values: [1, 2, 3, 4, 5, 2, 3, 4, 5, 6], subgroupSize: 5 },
    {
      centre: 3.5,
      limits: { lower: near(3.5 - 0.577 * 4), upper: near(3.5 + 0.577 * 4) },
      range: expect.objectContaining({ limits: { lower: 0, upper: near(8.46) } }),
    },
  ],
  [
    'xbar-s-chart',
    'A3 of 2 is 2.659 (ASTM MNL 7, from memory)',
    {
      subgroups: [
        [1, 3],
        [2, 4],
      ],
    },
    { centre: 2.5, limits: { lower: near(2.5 - 2.659 * Math.SQRT2, 2), upper: near(2.5 + 2.659 * Math.SQRT2, 2) } },
  ],
  [
    'ewma-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.4, limits 52.5884 and 47.4115',
    { values: [52, 47, 53, 49.3], lambda: 0.3, start: 50, sigma: 2.0539, L: 3 },
    {
      centre: 50,
      limits: { lower: near(47.4116, 3), upper: near(52.5884, 4) },
      points: expect.arrayContaining([expect.objectContaining({ ewma: near(50.6) })]),
    },
  ],
  [
    'cusum-chart',
    'NIST/SEMATECH e-Handbook 6.3.2.3',
    { values: [324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 328.325], target: 325, k: 0.3175, h: 4.1959 },
    { points: expect.arrayContaining([{ high: near(3.0075), low: 0 }]), signals: [] },
  ],
  [
    'run-rules',
    'Nelson 1984: nine on one side, eight are not enough',
    { values: [1, 1, 1, 1, 1, 1, 1, 1, 1], centre: 0, sigma: 5, rules: ['rule-2'] },
    { signals: [{ rule: 2, index: 8 }] },
  ],
  [
    'capability',
    'NIST/SEMATECH e-Handbook 6.1.6',
    { mean: 16, sigma: 2, lsl: 8, usl: 20 },
    { cp: 1, cpk: near(0.6667, 4), cpl: near(1.3333, 4), cpu: near(0.6667, 4), warning: expect.any(String) },
  ],
  [
    'average-quantity',
    'SI 2006/659: 12 g at 400 g',
    { nominalGrams: 400, weightsGrams: [400, 400, 388] },
    {
      tneGrams: 12,
      t1Grams: 388,
      t2Grams: 376,
      rules: [
        expect.objectContaining({ verdict: 'fail' }),
        expect.objectContaining({ verdict: 'pass' }),
        expect.objectContaining({ verdict: 'pass' }),
      ],
    },
  ],
  [
    'reference-test',
    'SI 2006/659 Sch. 2: 50, 3 and 4; 0.379 s',
    { nominalGrams: 400, lotSize: 400, weightsGrams: Array.from({ length: 50 }, (_, i) => 399 + 2 * (i % 2)), destructive: false },
    {
      plan: expect.objectContaining({ n: 50, accept: 3, reject: 4 }),
      s: near(1.010153),
      meanLimitGrams: near(400 - 0.379 * 1.010153, 3),
      verdict: 'accept',
    },
  ],
  [
    'scale-formula',
    'a tenth of a thousand: exact',
    {
      ingredients: [
        { name: 'flour', grams: 1000, flour: true },
        { name: 'water', grams: 600, flour: false },
      ],
      to: { pieces: 4, scalingGrams: 400 },
    },
    {
      doughGrams: 1600,
      lines: [expect.objectContaining({ grams: 1000, bakersPercent: 100 }), expect.objectContaining({ grams: 600, bakersPercent: 60 })],
    },
  ],
  [
    'total-formula',
    'flour in the preferment counts: 1100 g in all',
    {
      formula: {
        ingredients: [
          { name: 'flour', grams: 1000, flour: true },
          { name: 'water', grams: 600, flour: false },
          { name: 'poolish', grams: 200, flour: false },
        ],
        preferments: [
          {
            name: 'poolish',
            ingredients: [
              { name: 'flour', grams: 100, flour: true },
              { name: 'water', grams: 100, flour: false },
            ],
          },
        ],
      },
    },
    {
      view: 'total',
      flourGrams: 1100,
      totalGrams: 1800,
      lines: [expect.objectContaining({ grams: 1100, bakersPercent: 100 }), expect.objectContaining({ grams: 700, bakersPercent: 63.636 })],
    },
  ],
  [
    'water-temperature',
    'trade press: 3·80 − (65 + 75 + 35) = 65 °F',
    { wanted: 80, factors: { flour: 65, room: 75, friction: 35 }, unit: '°F', terms: 3 },
    { waterFahrenheit: 65, waterCelsius: near(18.3333, 4), frictionCelsius: near(19.4444, 4) },
  ],
  [
    'friction-factor',
    'trade press: 3·80 − (75 + 65 + 65) = 35 °F, a difference',
    { actual: 80, factors: [65, 75, 65], unit: 'fahrenheit', terms: 3 },
    { frictionFahrenheit: 35, frictionCelsius: near(19.4444, 4) },
  ],
  [
    'ice',
    'heat balance with 80 °C: 4.444 kg on top of 40 kg',
    { waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, way: 'adding' },
    { iceKilograms: near(4.444444), waterKilograms: 40 },
  ],
  ['bake-loss', '400 g at 12 % is 454.55 g of dough', { bakedGrams: 400, percent: 12 }, { doughGrams: near(454.545, 3) }],
  ['convert', 'NIST HB 44: 16 oz are 1 lb exactly', { value: 16, from: 'ounces', to: 'lbs' }, { value: '1', exact: '1', rounded: 1 }],
  ['convert', 'NIST HB 44: the imperial gallon', { value: '2', from: 'gal_uk', to: 'litres' }, { value: '9.09218', rounded: 9.092 }],
  [
    'convert',
    '190/9: a decimal that never ends',
    { value: 70, from: 'degrees Fahrenheit', to: '℃' },
    { value: expect.stringMatching(/^21\.1{20,}$/), exact: null, fraction: '190/9', reason: expect.any(String) },
  ],
  [
    'ingredient-list',
    'Regulation (EU) 1169/2011 Annex VII: 380 g of water in 1410 g',
    {
      lines: [
        { name: 'wheat flour', ingoingGrams: 1000, allergens: ['wheat'] },
        { name: 'water', ingoingGrams: 600 },
        { name: 'salt', ingoingGrams: 20 },
        { name: 'yeast', ingoingGrams: 10 },
      ],
      finishedGrams: 1410,
      regime: 'UK',
    },
    {
      text: 'Ingredients: WHEAT flour, water, salt, yeast',
      waterDeclared: true,
      water: expect.objectContaining({ grams: 380, percent: near(26.9504, 4) }),
    },
  ],
  [
    'quid',
    'Regulation (EU) 1169/2011 Annex VIII: 110 % becomes grams',
    {
      ingredients: [
        { name: 'butter', grams: 60, declared: true },
        { name: 'flour', grams: 50 },
        { name: 'salt', grams: 9, declared: false },
      ],
      finishedGrams: 100,
    },
    { text: '60 g butter and 50 g flour per 100 g', totalPercent: 110 },
  ],
  [
    'clean-down-sequence',
    'all six orders by hand: b, a, c costs 2 + 1',
    {
      makes: ['a', 'b', 'c'].map((name) => ({ name, allergens: [] })),
      costs: [
        [0, 5, 1],
        [2, 0, 3],
        [4, 4, 0],
      ],
      mustBeLast: 'c',
    },
    { order: ['b', 'a', 'c'], cost: 3, exact: true },
  ],
  ['gs1-check-digit', 'GS1 General Specifications', { key: '37610425002123456' }, { digit: 9 }],
  [
    'gs1-parse',
    'GS1 General Specifications; the century of November 2026',
    { text: ']C10105412345000013310300018917760200' + '10ABC' },
    { valid: true, errors: [], fields: expect.objectContaining({ useBy: '2076-02-29', netMassGrams: 189, lot: 'ABC' }) },
  ],
  [
    'gs1-parse',
    '2021 had no 29 February',
    { text: '(01) 05412345000013 (17) 210229' },
    { valid: false, errors: [expect.objectContaining({ rule: 'date', ai: '17' })] },
  ],
  [
    'gs1-parse',
    'FNC1 written out',
    { text: '010541234500001310ABC[FNC1]15260300' },
    { valid: true, fields: expect.objectContaining({ lot: 'ABC', bestBefore: '2026-03-31' }) },
  ],
  [
    'gs1-element-string',
    'GS1 General Specifications: FNC1 after (10), none after the last',
    {
      elements: [
        ['01', '05412345000013'],
        ['10', 'ABC'],
        ['15', '260300'],
      ],
    },
    { elementString: `010541234500001310ABC${gs}15260300` },
  ],
  [
    'gs1-digital-link',
    'GS1 Digital Link: the standard’s own example',
    { text: '(3103)000189(01)05412345000013(3923)2172(10)ABC&+123' },
    { uri: 'https://id.gs1.org/01/05412345000013/10/ABC%26%2B123?3103=000189&3923=2172' },
  ],
];
