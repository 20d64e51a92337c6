import { describe, expect, it } from '@jest/globals';
import { limitText } from './limit-text.js';
import type { Limit } from '../rows/point-fields.js';

const range = (min: string | null, max: string | null, unit: 'degC' | 'pH' | 'g' | 'min'): Limit => ({ type: 'range', min, max, unit });

describe('a limit as it is said', () => {
  it.each<[Limit, string]>([
    [range('93', null, 'degC'), '93 °C or more'],
    [range(null, '8', 'degC'), '8 °C or less'],
    [range('24.5', '27.5', 'degC'), '24.5 to 27.5 °C'],
    [range(null, '4.6', 'pH'), 'pH 4.6 or less'],
    [range('4.2', '4.6', 'pH'), 'pH 4.2 to 4.6'],
    [range('455', '475', 'g'), '455 to 475 g'],
    [range(null, null, 'min'), 'no limit'],
    [{ type: 'elapsed', maxMinutes: 90, fromCelsius: '63', toCelsius: '8' }, 'at most 90 min, from 63 to 8 °C'],
    [{ type: 'elapsed', maxMinutes: 120, fromCelsius: null, toCelsius: null }, 'at most 120 min'],
    [{ type: 'yes' }, 'must be yes'],
  ])('%j: %s', (limit, text) => {
    expect(limitText(limit)).toBe(text);
  });
});
