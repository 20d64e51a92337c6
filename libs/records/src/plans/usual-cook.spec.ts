import { describe, expect, it } from '@jest/globals';
import { planApproved } from './plan-approved.js';
import { cookWarning, secondsFor } from './usual-cook.js';
import { planContent, type PointContent } from '../rows/plan-content.js';

const [core] = planContent.parse(planApproved.examples[0].content).points;
const point = (min: string, change: Partial<PointContent> = {}): PointContent => {
  if (!core) throw new Error('the example has a point');
  return { ...core, limit: { type: 'range', min, max: null, unit: 'degC' }, ...change };
};

describe('a core minimum below what is usual', () => {
  // UK food-safety guidance (Listeria, 6-log; published): 60 °C 45 min, 70 °C 2 min, 80 °C 6 s. The list is rounded up: model ≤ listed ≤ 1.2 · model.
  it.each([
    [60, 2700],
    [70, 120],
    [80, 6],
  ])('%s °C for %s s is an equivalent', (celsius, listed) => {
    expect(secondsFor(celsius)).toBeLessThanOrEqual(listed);
    expect(listed).toBeLessThanOrEqual(1.2 * secondsFor(celsius));
  });

  it.each<[string, PointContent]>([
    ['40 °C', point('40')],
    ['74.9 °C, only read', point('74.9')],
    ['70 °C held for 60 s', point('70', { holdSeconds: '60' })],
    ['104 °F', point('75', { limit: { type: 'range', min: '104', max: null, unit: 'degF' } })],
  ])('is said of %s, with where the figures come from', (_what, of) => {
    expect(cookWarning(of)).toContain('published UK guidance');
    expect(cookWarning(of)).toContain('a competent person');
  });

  it.each<[string, PointContent]>([
    ['75 °C', point('75')],
    ['70 °C held for 120 s', point('70', { holdSeconds: '120' })],
    ['a loaf at 93 °C', point('93')],
    ['a fridge', point('2', { measured: 'air', step: 'store' })],
    ['a dough', point('24', { measured: 'dough', step: 'mix' })],
    ['a cooled core', point('4', { step: 'cool' })],
    ['a check of the process', point('60', { class: 'process-check' })],
  ])('is not said of %s', (_what, of) => {
    expect(cookWarning(of)).toBeNull();
  });
});
