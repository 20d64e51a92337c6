import { describe, expect, it } from '@jest/globals';
import { planApproved } from './plan-approved.js';
import { pointProblem } from './point-problem.js';
import { planContent, type PointContent } from '../rows/plan-content.js';

const [core] = planContent.parse(planApproved.examples[0].content).points;
const point = (change: Partial<PointContent>): PointContent => {
  if (!core) throw new Error('the example has a point');
  return { ...core, ...change };
};
const range = (min: string | null, max: string | null, unit: Extract<PointContent['limit'], { type: 'range' }>['unit'] = 'degC') => ({
  type: 'range' as const,
  min,
  max,
  unit,
});

describe('pointProblem', () => {
  it.each<[string, Partial<PointContent>]>([
    ['a core minimum', {}],
    ['a range of one figure', { limit: range('93', '93') }],
    ['an oven’s air', { measured: 'air', limit: range('200', '250') }],
    ['degrees Fahrenheit', { limit: range('199', null, 'degF') }],
    ['a cooling time', { measured: 'elapsed', limit: { type: 'elapsed', maxMinutes: 90, fromCelsius: '63', toCelsius: '8' } }],
    ['minutes in a range', { measured: 'elapsed', limit: range(null, '90', 'min') }],
    ['yes or no', { measured: 'yes-no', limit: { type: 'yes' } }],
    ['acidity', { measured: 'ph', limit: range(null, '4.6', 'pH') }],
    ['a weight', { measured: 'mass', limit: range('255', null, 'g') }],
    ['a held temperature', { holdSeconds: '30', limit: range('75', null) }],
    ['a note with nothing to do', { class: 'process-check', ifOutside: 'note', correctiveAction: '', basis: '' }],
  ])('%s makes sense', (_what, change) => {
    expect(pointProblem(point(change))).toBeUndefined();
  });

  it.each<[string, Partial<PointContent>, string]>([
    ['no end', { limit: range(null, null) }, 'limit.min'],
    ['the wrong way round', { limit: range('93', '92.9') }, 'limit.max'],
    ['a weight for a temperature', { limit: range('93', null, 'g') }, 'limit.unit'],
    ['a temperature for a weight', { measured: 'mass' }, 'limit.unit'],
    ['a temperature for a pH', { measured: 'ph' }, 'limit.unit'],
    ['percent for a pH', { measured: 'ph', limit: range(null, '4.6', 'percent') }, 'limit.unit'],
    ['a range for yes or no', { measured: 'yes-no' }, 'limit.unit'],
    ['a temperature for a time', { measured: 'elapsed' }, 'limit.unit'],
    ['yes for a core', { limit: { type: 'yes' } }, 'limit.type'],
    ['elapsed for a core', { limit: { type: 'elapsed', maxMinutes: 90, fromCelsius: null, toCelsius: null } }, 'limit.type'],
    [
      'cooling to where it starts',
      { measured: 'elapsed', limit: { type: 'elapsed', maxMinutes: 90, fromCelsius: '8', toCelsius: '8.0' } },
      'limit.toCelsius',
    ],
    ['199 °F typed as °C', { limit: range('199', null) }, 'limit.min'],
    ['a maximum no food has', { limit: range('75', '940') }, 'limit.max'],
    ['pH 46', { measured: 'ph', limit: range(null, '46', 'pH') }, 'limit.max'],
    ['less than nothing', { measured: 'mass', limit: range('-1', null, 'g') }, 'limit.min'],
    ['held without a minimum', { holdSeconds: '30', limit: range(null, '8') }, 'holdSeconds'],
    ['a held weight', { holdSeconds: '30', measured: 'mass', limit: range('1', null, 'g') }, 'holdSeconds'],
    ['critical, and nothing to do', { correctiveAction: ' ' }, 'correctiveAction'],
    ['critical, on no grounds', { basis: '' }, 'basis'],
    ['critical, and only noted', { ifOutside: 'note' }, 'ifOutside'],
  ])('%s makes none', (_what, change, field) => {
    expect(pointProblem(point(change))?.field).toBe(field);
  });

  it('a range in single digits and tens is not taken for text', () => {
    expect(pointProblem(point({ limit: range('9', '75') }))).toBeUndefined();
  });
});
