import { describe, expect, it } from '@jest/globals';
import { unitNames } from '@bakehouse/kernel';
import type { Limit } from '@bakehouse/records';
import fc from 'fast-check';
import { fromLimit, scaleOf } from './from-limit';

const core: Limit = { type: 'range', min: '94', max: null, unit: 'degC' };
const dough: Limit = { type: 'range', min: '24.5', max: '27.5', unit: 'degC' };

describe('how far a value is from its limit', () => {
  it.each([
    ['87.9', 'degC', core, '6.1 °C below the limit'],
    ['95.1', 'degC', core, '1.1 °C above the limit'],
    ['94.0', 'degC', core, 'exactly at the limit'],
    ['28.5', 'degC', dough, '1 °C above the upper limit'],
    ['24.6', 'degC', dough, '0.1 °C above the lower limit'],
    // 46.4 °F is 8 °C
    ['46.4', 'degF', { type: 'range', min: null, max: '5', unit: 'degC' }, '3 °C above the limit'],
    ['80', 'min', { type: 'elapsed', maxMinutes: 75, fromCelsius: null, toCelsius: null }, '5 min above the limit'],
    ['4.9', 'pH', { type: 'range', min: null, max: '4.6', unit: 'pH' }, 'pH 0.3 above the limit'],
  ] as const)('%s %s', (figure, unit, limit, text) => {
    expect(fromLimit({ figure, unit }, limit)?.text).toBe(text);
  });

  it('is nothing where the limit has no end, asks for yes, or measures something else', () => {
    expect(fromLimit({ figure: '5', unit: 'degC' }, { type: 'range', min: null, max: null, unit: 'degC' })).toBeUndefined();
    expect(fromLimit({ figure: '5', unit: 'degC' }, { type: 'yes' })).toBeUndefined();
    expect(fromLimit({ figure: '5', unit: 'g' }, core)).toBeUndefined();
    expect(unitNames).toContain('g');
  });

  it('has a line on which everything stands in its order', () => {
    const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(figure, figure, figure, fc.constantFrom('min', 'max', 'both'), (value, a, b, ends) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const of = { value, min: ends === 'max' ? null : low, max: ends === 'min' ? null : high };
        const scale = scaleOf(of);
        for (const at of Object.values(scale)) expect(at >= 0 && at <= 100).toBe(true);
        expect(scale.from).toBeLessThanOrEqual(scale.to);
        if (of.min !== null && value < of.min) expect(scale.value).toBeLessThanOrEqual(scale.from);
        if (of.max !== null && value > of.max) expect(scale.value).toBeGreaterThanOrEqual(scale.to);
      }),
    );
  });
});
