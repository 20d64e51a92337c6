import { describe, expect, it } from '@jest/globals';
import { planApproved } from './plan-approved.js';
import { pointsFor, type AtHand } from './points-for.js';
import { planContent } from '../rows/plan-content.js';

const example = planContent.parse(planApproved.examples[0].content);
const plan = {
  ...example,
  points: example.points.flatMap((p) => [
    { ...p, key: 'every-bake' },
    { ...p, key: 'white', formulas: ['white'] },
    { ...p, key: 'roll', products: ['roll'] },
    { ...p, key: 'rye-or-roll', formulas: ['rye'], products: ['roll'] },
    { ...p, key: 'every-mix', step: 'mix' as const },
  ]),
};

describe('pointsFor', () => {
  it.each<[AtHand, string[]]>([
    [{ step: 'bake', formula: null, products: [] }, ['every-bake']],
    [{ step: 'bake', formula: 'white', products: ['tin'] }, ['every-bake', 'white']],
    [{ step: 'bake', formula: 'white', products: ['tin', 'roll'] }, ['every-bake', 'white', 'roll', 'rye-or-roll']],
    [{ step: 'bake', formula: 'rye', products: ['tin'] }, ['every-bake', 'rye-or-roll']],
    [{ step: 'mix', formula: 'rye', products: ['roll'] }, ['every-mix']],
    [{ step: 'cool', formula: 'white', products: ['roll'] }, []],
  ])('%j', (atHand, keys) => {
    expect(pointsFor(plan, atHand).map((p) => p.key)).toEqual(keys);
  });
});
