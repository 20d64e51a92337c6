import { describe, expect, it } from '@jest/globals';
import { isFirstOfDay, pointApplies } from './points-required.js';
import type { PointContent } from '../rows/plan-content.js';

const point = (of: Partial<PointContent>): PointContent => ({
  key: 'k',
  name: 'n',
  step: 'bake',
  class: 'ccp',
  hazard: '',
  formulas: [],
  products: [],
  measured: 'core',
  parameter: 'core',
  limit: { type: 'yes' },
  holdSeconds: null,
  frequency: 'each-load',
  ifNotMonitored: 'hold',
  ifOutside: 'hold',
  correctiveAction: '',
  basis: '',
  validated: null,
  ...of,
});

describe('what a control point is for', () => {
  const bread = { formula: 'white', product: 'tin', steps: ['mix', 'bake'] };
  it.each<[string, Partial<PointContent>, typeof bread, boolean]>([
    ['its product', { products: ['tin'] }, bread, true],
    ['another product', { products: ['bap'] }, bread, false],
    ['its formula', { formulas: ['white'] }, bread, true],
    ['its product of another formula', { formulas: ['rye'], products: ['tin'] }, bread, false],
    ['everything with its step', {}, bread, true],
    ['nothing without its step', { step: 'cook' }, bread, false],
    ['everything where the step is none of a formula', { step: 'dispatch' }, bread, true],
    ['everything where nobody knows the steps', { step: 'cook' }, { ...bread, steps: [] }, true],
  ])('%s', (_case, of, product, applies) => {
    expect(pointApplies(point(of), product)).toBe(applies);
  });

  it('finds the first load of the day per oven and product', () => {
    const line = (load: string, at: string, oven = 'o', product = 'tin', bakeDay = '2026-11-25') => ({
      id: load,
      load,
      product,
      oven,
      bakeDay,
      at,
    });
    const lines = [
      line('b', '05'),
      line('a', '04'),
      line('c', '03', 'rack'),
      line('d', '02', 'o', 'bap'),
      line('e', '01', 'o', 'tin', '2026-11-24'),
    ];
    expect(['a', 'b', 'c'].map((l) => isFirstOfDay(l, 'tin', lines))).toEqual([true, false, true]);
  });
});
