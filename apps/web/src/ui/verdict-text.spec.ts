import { describe, expect, it } from '@jest/globals';
import type { Limit } from '@bakehouse/records';
import { judgedValue, verdictText } from './verdict-text';

const core: Limit = { type: 'range', min: '94', max: null, unit: 'degC' };
const chilled: Limit = { type: 'range', min: null, max: '8', unit: 'degC' };
const said = (figure: string | null, unit: string | null, limit: Limit | null) => verdictText('outside', judgedValue(figure, unit, limit));

describe('what a value outside its limit is called', () => {
  it.each([
    ['too low', '87.9', 'degC', core],
    ['too high', '9.4', 'degC', chilled],
    ['too high', '48.9', 'degF', chilled],
    ['too long', '76', 'min', { type: 'elapsed', maxMinutes: 75, fromCelsius: null, toCelsius: null }],
    ['outside', null, null, { type: 'yes' }],
    ['outside', '94', 'degC', null],
    ['outside', '95', 'degC', core],
  ] as const)('%s: %s %s', (word, figure, unit, limit) => {
    expect(said(figure, unit, limit)).toBe(word);
  });

  it('is no matter where the verdict is another one', () => {
    expect(verdictText('unsure', judgedValue('87.9', 'degC', core))).toMatch(/^too close to call/);
  });
});
