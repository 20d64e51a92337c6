import { describe, expect, it } from '@jest/globals';
import { annexTwo, usNine } from '@bakehouse/kernel';
import { cleanDownSequence, ingredientList, quid } from '@bakehouse/sums';

function answered<T>(outcome: { ok: true; value: T } | { ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}
const bread = [
  { name: 'yeast', grams: 10 },
  { name: 'salt', grams: 20 },
  { name: 'water', grams: 600, water: true },
  { name: 'wheat flour', grams: 1000, allergens: ['wheat'] },
];

describe('allergen lists (from memory of the texts)', () => {
  it('has the 14 entries of Regulation (EU) 1169/2011 Annex II and the 9 of 21 USC 321(qq)', () => {
    expect(annexTwo).toHaveLength(14);
    expect(usNine.map((one) => one.entry)).toEqual([
      'milk',
      'egg',
      'fish',
      'Crustacean shellfish',
      'tree nuts',
      'wheat',
      'peanuts',
      'soybeans',
      'sesame',
    ]);
    expect(annexTwo.flatMap((one) => one.members).filter((one) => !usNine.some((us) => us.members.includes(one)))).toEqual([
      'rye',
      'barley',
      'oats',
      'celery',
      'mustard',
      'sulphites',
      'lupin',
      'molluscs',
    ]);
  });
});

describe('ingredient order and water (Regulation (EU) 1169/2011 Art. 18, Annex VII; from memory)', () => {
  it('1000 flour, 600 water, 20 salt, 10 yeast baked to 1410 g: water in the product is 380 g, 26.95 %', () => {
    const out = answered(ingredientList.calculate({ lines: bread, finishedGrams: 1410, regime: 'eu' }));
    expect(out.water).toMatchObject({ grams: 380, percent: expect.closeTo(26.95, 2), declared: true });
    expect(out.list.map((one) => one.name)).toEqual(['wheat flour', 'water', 'salt', 'yeast']);
    expect(out.groups.small).toEqual(['salt', 'yeast']);
  });
});

describe('“contains N % or less of” (US 21 CFR 101.4(a)(2))', () => {
  it.each([2, 1.5, 1, 0.5])('no member of the group at %f %% is above it', (smallPercent) => {
    const out = answered(ingredientList.calculate({ lines: bread, finishedGrams: 1410, regime: 'us', smallPercent }));
    for (const one of out.list) expect(one.group === 'small').toBe((one.grams / 1410) * 100 <= smallPercent);
    expect(out.containsStatement).toBe('Contains: wheat');
  });
});

describe('declared quantities (Regulation (EU) 1169/2011 Art. 22, Annex VIII; UK local-authority guidance)', () => {
  it('800 g dough with 200 g sultanas baked to 800 g: 25 %', () => {
    const out = answered(quid.calculate({ declared: [{ name: 'sultanas', grams: 200 }], finishedGrams: 800, ingoingGrams: 1000 }));
    expect(out).toMatchObject({ form: 'percent', text: 'sultanas 25 %' });
  });

  it('60 g butter and 50 g flour on 100 g finished are 110 %, so grams per 100 g', () => {
    const out = answered(
      quid.calculate({
        declared: [
          { name: 'butter', grams: 60 },
          { name: 'flour', grams: 50 },
        ],
        finishedGrams: 100,
      }),
    );
    expect(out).toMatchObject({ form: 'grams-per-100-g', totalPercent: 110, text: '60 g butter and 50 g flour per 100 g' });
  });

  it('exactly 100.0 % stays a percentage', () => {
    expect(
      answered(
        quid.calculate({
          declared: [
            { name: 'butter', grams: 60 },
            { name: 'flour', grams: 40 },
          ],
          finishedGrams: 100,
        }),
      ).form,
    ).toBe('percent');
  });
});

describe('order of clean-downs (against every order, tried one by one)', () => {
  it('finds the least of all 5040 orders of seven makes', () => {
    const costs = Array.from({ length: 7 }, (_, i) => Array.from({ length: 7 }, (_same, k) => (i * 31 + k * 17 + i * k * 7) % 23));
    let least = Infinity;
    const walk = (left: readonly number[], last: number | null, cost: number): void => {
      if (left.length === 0) least = Math.min(least, cost);
      for (const next of left)
        walk(
          left.filter((one) => one !== next),
          next,
          cost + (last === null ? 0 : (costs[last]?.[next] ?? NaN)),
        );
    };
    walk([...costs.keys()], null, 0);
    const makes = costs.map((_, i) => ({ name: `make ${i}`, allergens: [] }));
    expect(answered(cleanDownSequence.calculate({ makes, costs })).cost).toBe(least);
  });
});
