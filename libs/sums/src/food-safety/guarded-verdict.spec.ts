import { describe, expect, it } from '@jest/globals';
import { guardedVerdict } from './guarded-verdict.js';

const chilled = { value: 7.5, unit: 'degC', limit: { max: 8, unit: 'degC' }, halfWidth: 0.5 };

describe('guarded-verdict', () => {
  it('takes numbers and decimal text alike, and echoes text', () => {
    const text = guardedVerdict.calculate({ value: '7.50', unit: 'degC', limit: { max: '8.0', unit: 'degC' }, halfWidth: '0.5' });
    expect(text).toMatchObject({
      ok: true,
      value: { verdict: 'within', inputs: { value: '7.5', halfWidth: '0.5', limit: { min: null, max: '8' } } },
    });
    expect(guardedVerdict.calculate(chilled)).toEqual(text);
  });

  it('says what the reading is in the unit of the limit, and what to do when unsure', () => {
    const out = guardedVerdict.calculate({ value: 75.2, unit: 'degC', limit: { min: '167', unit: 'degF' }, halfWidth: 1 });
    expect(out).toMatchObject({ ok: true, value: { verdict: 'unsure', valueInLimitUnit: '167.36' } });
    expect(out.ok ? out.value.cautions.join(' ') : '').toMatch(/Measure again/);
    expect(out.ok ? out.value.explanation : '').toMatch(/cannot be decided/);
  });

  // JCGM 106:2012, guard bands with w = U; FDA Food Code prints 21 °C where it prints 70 °F
  it('judges 21.05 °C within 70 °F and outside 21 °C', () => {
    const at = (limit: { max: number; unit: string }) => guardedVerdict.calculate({ value: 21.05, unit: 'degC', limit, halfWidth: 0 });
    expect(at({ max: 70, unit: 'degF' })).toMatchObject({ ok: true, value: { verdict: 'within' } });
    expect(at({ max: 21, unit: 'degC' })).toMatchObject({ ok: true, value: { verdict: 'outside' } });
  });

  it.each([
    ['value', { value: NaN }],
    ['value', { value: Infinity }],
    ['value', { value: '7,5' }],
    ['value', { value: '1e3' }],
    ['value', { value: '' }],
    ['value', { value: -300 }],
    ['unit', { unit: 'kg' }],
    ['unit', { unit: 'celsius-ish' }],
    ['limit', { limit: { unit: 'degC' } }],
    ['limit.max', { limit: { min: 9, max: 8, unit: 'degC' } }],
    ['limit.min', { limit: { min: NaN, unit: 'degC' } }],
    ['halfWidth', { halfWidth: -1 }],
    ['halfWidth', { halfWidth: undefined }],
    ['halfWidth', { halfWidth: '-0.1' }],
  ])('refuses a bad %s: %j', (field, bad) => {
    expect(guardedVerdict.calculate({ ...chilled, ...bad })).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/./) });
  });
});
