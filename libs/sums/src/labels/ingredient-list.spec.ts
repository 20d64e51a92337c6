import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { ingredientList } from './ingredient-list.js';

const asked = (body: Record<string, unknown>) => {
  const out = ingredientList.calculate({ regime: 'eu', ...body });
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const flour = { name: 'wheat flour', grams: 900, allergens: ['wheat'] };
const butter = { name: 'butter', grams: 200, allergens: ['milk'] };
const water = { name: 'water', grams: 200 };

describe('ingredient-list', () => {
  it('leaves water out at exactly 5 % of the finished product and lists it above', () => {
    const at = (grams: number) =>
      asked({
        lines: [
          { ...flour, grams: 950 },
          { name: 'water', grams: 100 },
        ],
        finishedGrams: grams,
      });
    expect(at(1000)).toMatchObject({ waterDeclared: false, water: { grams: 50, percent: 5 }, text: 'Ingredients: WHEAT flour' });
    expect(at(1000.001)).toMatchObject({ waterDeclared: true, groups: { byWeight: ['wheat flour', 'water'] } });
    expect(at(940)).toMatchObject({ waterDeclared: false, water: { grams: 0, why: expect.stringContaining('None') } });
    expect(asked({ lines: [flour], finishedGrams: 900 })).toMatchObject({ water: null, waterDeclared: false });
  });

  it('puts an ingredient with the small ones below 2 %, not at 2 %', () => {
    const groups = (salt: number) =>
      asked({
        lines: [
          { ...flour, grams: 1000 - salt },
          { name: 'salt', grams: salt },
        ],
        finishedGrams: 1000,
      });
    expect(groups(20)).toMatchObject({ groups: { byWeight: ['wheat flour', 'salt'], small: [] } });
    expect(groups(19.999)).toMatchObject({ groups: { byWeight: ['wheat flour'], small: ['salt'] } });
    const us = (salt: number) =>
      asked({
        lines: [
          { ...flour, grams: 1000 - salt },
          { name: 'salt', grams: salt },
        ],
        finishedGrams: 1000,
        regime: 'us',
        smallPercent: 2,
      });
    expect(us(20)).toMatchObject({ text: 'Ingredients: wheat flour, contains 2% or less of: salt' });
    expect(us(20.001)).toMatchObject({ groups: { small: [] } });
  });

  it('emphasises the word that names the allergen, and adds it where the name does not', () => {
    expect(asked({ lines: [flour, butter, { name: 'spelt flour', grams: 100, allergens: ['wheat'] }], finishedGrams: 1200 })).toMatchObject(
      {
        text: 'Ingredients: WHEAT flour, butter (MILK), spelt flour (WHEAT)',
        emphasised: ['wheat', 'milk'],
        allergens: ['wheat', 'milk'],
        containsStatement: null,
      },
    );
    expect(asked({ lines: [{ name: 'coconut milk powder', grams: 10, allergens: ['milk'] }], finishedGrams: 10 })).toMatchObject({
      text: 'Ingredients: coconut milk powder (MILK)',
    });
    expect(
      asked({ lines: [{ name: 'rye wholewheat mix', grams: 10, allergens: ['wheat', 'rye', 'egg'] }], finishedGrams: 10 }),
    ).toMatchObject({ text: 'Ingredients: RYE WHOLEWHEAT mix (EGG)' });
  });

  it('gives a compound ingredient its own list, in its order, and loses no allergen of the whole', () => {
    const filling = {
      name: 'filling',
      grams: 300,
      allergens: ['milk', 'almond'],
      parts: [
        { name: 'sugar', grams: 1 },
        { name: 'ground almonds', grams: 3, allergens: ['almonds'] },
      ],
    };
    expect(asked({ lines: [flour, filling], finishedGrams: 1100 })).toMatchObject({
      text: 'Ingredients: WHEAT flour, filling (MILK) (ground ALMONDS, sugar)',
    });
    const bought = {
      ...filling,
      allergens: [],
      parts: [{ name: 'sugar' }, { name: 'oil', parts: [{ name: 'soya oil', allergens: ['soya'] }] }],
    };
    expect(asked({ lines: [flour, bought], finishedGrams: 1100 })).toMatchObject({
      text: 'Ingredients: WHEAT flour, filling (sugar, oil (SOYA oil))',
      allergens: ['wheat', 'soybeans'],
    });
  });

  it('joins a preferment made here to the list, its water included', () => {
    const leaven = {
      name: 'leaven',
      grams: 200,
      merge: true,
      parts: [
        { name: 'wheat flour', grams: 1, allergens: ['wheat'] },
        { name: 'water', grams: 1 },
      ],
    };
    const out = asked({ lines: [flour, water, leaven], finishedGrams: 1150 });
    expect(out).toMatchObject({ water: { grams: 150 }, groups: { byWeight: ['wheat flour', 'water'] } });
    expect(typeof out === 'string' ? [] : out.list.map((item) => item.grams)).toEqual([1000, 150]);
  });

  it('gives the US statement for its nine and no emphasis, and may-contain only for what is not contained', () => {
    const out = asked({
      lines: [{ ...flour, allergens: ['wheat', 'rye'], mayContain: ['milk', 'wheat', 'sesame'] }, butter],
      finishedGrams: 1100,
      regime: 'us',
    });
    expect(out).toMatchObject({
      containsStatement: 'Contains: milk, wheat',
      emphasised: [],
      mayContain: ['sesame'],
      mayContainText: 'May contain: sesame',
      text: 'Ingredients: wheat flour, butter',
    });
    expect(asked({ lines: [{ name: 'mustard', grams: 5, allergens: ['mustard'] }], finishedGrams: 5, regime: 'us' })).toMatchObject({
      containsStatement: null,
      allergens: ['mustard'],
    });
  });

  it('warns of statutory nutrients in Great Britain, and only for flour that is not wholemeal', () => {
    const cautions = (name: string, regime: string) => {
      const out = asked({ lines: [{ ...flour, name }], finishedGrams: 900, regime });
      return typeof out === 'string' ? out : out.cautions.join(' ');
    };
    expect(cautions('white wheat flour', 'gb')).toMatch(/statutory added nutrients/);
    expect(cautions('wholemeal wheat flour', 'gb')).not.toMatch(/statutory/);
    expect(cautions('white wheat flour', 'eu')).not.toMatch(/statutory/);
  });

  it('does not depend on the order of the lines', () => {
    const line = fc.record({ name: fc.constantFrom('a', 'b', 'c', 'water', 'e', 'f'), grams: fc.integer({ min: 1, max: 30 }) });
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 50, max: 100 }),
        fc.constantFrom('eu', 'us'),
        (lines, kept, regime) => {
          const finishedGrams = (lines.reduce((sum, l) => sum + l.grams, 0) * kept) / 100;
          const [one, other] = [asked({ lines, finishedGrams, regime }), asked({ lines: [...lines].reverse(), finishedGrams, regime })];
          if (typeof one === 'string' || typeof other === 'string') throw new Error('refused');
          expect(other.list).toEqual(one.list);
          for (const [index, item] of one.list.slice(1).entries())
            if (regime === 'eu') expect(item.grams).toBeLessThanOrEqual(one.list[index]?.grams ?? NaN);
        },
      ),
    );
  });

  it('refuses groups in place of names, a gain, and parts that cannot be ordered', () => {
    for (const word of ['gluten', 'nuts', 'custard'])
      expect(asked({ lines: [{ ...flour, allergens: [word] }], finishedGrams: 5 })).toMatch(/^lines.0.allergens.0: allergens by name/);
    expect(asked({ lines: [flour], finishedGrams: 901 })).toMatch(/^finishedGrams: at most what went in, 900 g/);
    expect(asked({ lines: [{ ...flour, parts: [{ name: 'a', grams: 1 }, { name: 'b' }] }], finishedGrams: 5 })).toMatch(
      /^lines.0.parts: grams on every part/,
    );
    expect(asked({ lines: [{ ...flour, merge: true }], finishedGrams: 5 })).toMatch(/^lines.0.parts: the parts with grams/);
    expect(asked({ lines: [flour], finishedGrams: 5, smallPercent: 2 })).toMatch(/^smallPercent: nothing/);
    for (const grams of [0, -1, NaN, Infinity])
      expect(asked({ lines: [{ ...flour, grams }], finishedGrams: 5 })).toMatch(/^lines.0.grams: /);
    expect(asked({ lines: [], finishedGrams: 5 })).toMatch(/^lines: at least one/);
    expect(asked({ lines: Array(100_000).fill(flour), finishedGrams: 5 })).toMatch(/^lines: at most 200/);
    expect(asked({ lines: [flour], finishedGrams: 5, regime: 'fr' })).toMatch(/^regime: eu, gb or us/);
  });
});
