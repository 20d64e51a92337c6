import { describe, expect, it } from '@jest/globals';
import { scaleFormula, totalFormula } from './bakery/index.js';
import type { Calculation } from './calculation.js';
import { ccpDecision, cooling } from './food-safety/index.js';
import { cleanDownSequence, ingredientList, quid } from './labels/index.js';
import { changed, lifted, renamed } from './spellings.js';
import { cusumChart, ewmaChart, runRules, xbarRChart } from './statistics/index.js';

describe('spellings', () => {
  it('rename, lift and change without touching what was given, and leave two names for one thing to be refused', () => {
    const raw = { s: 1, sigma: 2 };
    expect([renamed(raw, { s: 'sigma' }), renamed({ s: 1 }, { s: 'sigma' }), raw]).toEqual([raw, { sigma: 1 }, { s: 1, sigma: 2 }]);
    expect([lifted({ to: { a: 1 }, b: 2 }, 'to'), lifted({ to: { b: 1 }, b: 2 }, 'to'), lifted({ to: 5 }, 'to')]).toEqual([
      { a: 1, b: 2 },
      { to: { b: 1 }, b: 2 },
      { to: 5 },
    ]);
    expect([changed({}, 'a', () => 1), changed({ a: 0 }, 'a', () => 1)]).toEqual([{}, { a: 1 }]);
  });

  const profile = [
    { minutes: 0, celsius: 57 },
    { minutes: 60, celsius: 21 },
  ];
  const stage = { toCelsius: 21, withinMinutes: 60 };
  const own = { fromCelsius: null, ...stage };
  const [flour, water] = [
    { name: 'flour', grams: 100, flour: true },
    { name: 'water', grams: 100, flour: false },
  ];
  const main = [
    { name: 'flour', grams: 900, flour: true },
    { name: 'poolish', grams: 200, flour: false },
  ];
  const whole = { ingredients: [main[0], { ...main[1], preferment: [flour, water] }] };
  const yes = { edition: '2022', answers: { q1: false, q2: true, q3: false, q4: true } };
  const makes = [
    { name: 'a', allergens: ['milk'] },
    { name: 'b', allergens: [] },
  ];

  it.each<readonly [Calculation, object, readonly object[]]>([
    [
      cooling,
      { profile, rule: [own] },
      [
        { profile, stages: [stage] },
        { profile, rule: { stages: [stage] } },
        { profile, rule: 'stages', stages: [own] },
      ],
    ],
    [
      ccpDecision,
      yes,
      [
        { edition: 2022, answers: [false, true, false, true] },
        { edition: 'Codex 2022', answers: { Q1: 'No', Q2: 'YES', Q3: 'no', 'Question 4': 'yes' } },
        {
          edition: '2022',
          answers: [
            { question: 'Q1', answer: 'no' },
            { question: 'Q2', answer: true },
            { question: 'Q3', answer: false },
            { question: 'Q4', answer: 'yes' },
          ],
        },
        { edition: '2022', answers: { 1: false, 2: true, 3: false, 4: true } },
      ],
    ],
    [
      ewmaChart,
      { values: [1, 2], centre: 0, sigma: 1, width: 3 },
      [
        { values: [1, 2], start: 0, s: 1, L: 3 },
        { values: [1, 2], mean: 0, sigma: 1, width: 3 },
      ],
    ],
    [
      cusumChart,
      { values: [1, 2], target: 0, k: 1, h: 4 },
      [
        { values: [1, 2], mean: 0, k: 1, h: 4 },
        { values: [1, 2], T: 0, k: 1, h: 4 },
      ],
    ],
    [
      xbarRChart,
      {
        subgroups: [
          [1, 2],
          [2, 3],
        ],
      },
      [
        {
          values: [
            [1, 2],
            [2, 3],
          ],
        },
        { values: [1, 2, 2, 3], subgroupSize: 2 },
      ],
    ],
    [
      runRules,
      { values: [9], centre: 0, sigma: 1, rules: [1, 2, 3, 4, 5, 6, 7, 8] },
      [
        { values: [9], centre: 0, sigma: 1, rules: 'nelson' },
        { values: [9], centre: 0, sigma: 1, rules: ['1', 'rule-2', 'Nelson 3', 'test 4', 5, '6', '7', '8'] },
      ],
    ],
    [
      scaleFormula,
      { ingredients: [flour, water], pieces: 2, scalingGrams: 50 },
      [
        { ingredients: [flour, water], to: { pieces: 2, scalingGrams: 50 } },
        { formula: [flour, water], pieces: 2, scalingWeightGrams: 50 },
      ],
    ],
    [
      totalFormula,
      whole,
      [
        { formula: { ingredients: main, preferments: [{ name: 'Poolish', parts: [flour, water] }] } },
        { formula: [main[0], { name: 'poolish', grams: 200, preferment: { ingredients: [flour, water] } }] },
        { ingredients: [main[0]], preferments: [{ name: 'poolish', ingredients: [flour, water] }] },
        { ingredients: [main[0], { ...main[1], preferment: true, parts: [flour, water] }] },
      ],
    ],
    [
      ingredientList,
      {
        lines: [
          {
            name: 'butter',
            grams: 50,
            parts: [
              { name: 'cream', grams: 49 },
              { name: 'salt', grams: 1 },
            ],
          },
        ],
        finishedGrams: 50,
        regime: 'gb',
      },
      [
        {
          ingredients: [
            {
              name: 'butter',
              ingoingGrams: 50,
              compoundParts: [
                { name: 'cream', ingoingGrams: 49 },
                { name: 'salt', grams: 1 },
              ],
            },
          ],
          finishedGrams: 50,
          regime: 'UK',
        },
      ],
    ],
    [
      quid,
      { declared: [{ name: 'butter', grams: 60 }], finishedGrams: 100 },
      [
        {
          ingredients: [
            { name: 'butter', grams: 60, declared: true },
            { name: 'salt', grams: 2, declared: false },
          ],
          finishedGrams: 100,
        },
      ],
    ],
    [
      cleanDownSequence,
      {
        makes,
        costs: [
          { from: 'a', to: 'b', cost: 5 },
          { from: 'b', to: 'a', cost: 2 },
        ],
        mustBeLast: ['a'],
      },
      [
        { makes, costs: { a: { b: 5 }, b: { a: 2 } }, mustBeLast: 'a' },
        { makes: [{ ...makes[0], mustBeLast: true }, makes[1]], cost: { a: { b: 5 }, b: { a: 2 } } },
      ],
    ],
  ])('%# are answered as the canonical request is', (calculation, canonical, others) => {
    const answer = calculation.calculate(canonical);
    expect(answer.ok).toBe(true);
    for (const other of others) expect(calculation.calculate(other)).toEqual(answer);
  });

  it('never makes a wrong figure right', () => {
    expect(
      totalFormula.calculate({ ingredients: [flour], preferments: [{ name: 'poolish', ingredients: [{ ...flour, grams: 'much' }] }] }),
    ).toMatchObject({ ok: false, field: 'ingredients.1.grams' });
    expect(ccpDecision.calculate({ edition: '2022', answers: ['perhaps'] })).toMatchObject({ ok: false, field: 'answers.q1' });
    expect(runRules.calculate({ values: [1], centre: 0, sigma: 1, rules: ['9'] })).toMatchObject({ ok: false, field: 'rules.0' });
    expect(xbarRChart.calculate({ values: [1, 2, 3], subgroupSize: 2 })).toMatchObject({ ok: false });
    expect(quid.calculate({ ingredients: [{ name: 'salt', grams: 2, declared: 'yes' }], finishedGrams: 100 })).toMatchObject({
      ok: false,
      field: 'declared.0.declared',
    });
  });
});
