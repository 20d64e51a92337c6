import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { controlNeeded, temperatureControlNeeded } from './temperature-control-needed.js';

describe('temperature-control-needed', () => {
  it('never needs less control for a higher pH or water activity', () => {
    const figure = fc.tuple(fc.integer({ min: 380, max: 600 }), fc.integer({ min: 860, max: 1000 }));
    fc.assert(
      fc.property(figure, fc.nat(100), fc.nat(100), fc.constantFrom('A' as const, 'B' as const), ([ph, aw], morePh, moreAw, table) => {
        const before = controlNeeded(ph / 100, aw / 1000, table);
        const after = controlNeeded((ph + morePh) / 100, Math.min(1, (aw + moreAw) / 1000), table);
        expect(before === 'assess' && after === 'not-needed').toBe(false);
      }),
    );
  });

  it('never asks more of packaged heat-treated food than of other food', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 14, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (ph, aw) => {
        if (controlNeeded(ph, aw, 'A') === 'assess') expect(controlNeeded(ph, aw, 'B')).toBe('assess');
      }),
    );
  });

  it('says to treat as controlled until assessed, and for what food the tables are', () => {
    const out = temperatureControlNeeded.calculate({ ph: 6.5, waterActivity: 0.97, heatTreatedThenPackaged: true });
    expect(out).toMatchObject({
      ok: true,
      value: { table: 'A', result: 'assess', treatAsControlled: true, advice: 'treat as controlled until assessed' },
    });
    expect(out.ok ? out.value.validRange : '').toMatch(/homogeneous/);
    const dry = temperatureControlNeeded.calculate({ ph: 7, waterActivity: 0.87, heatTreatedThenPackaged: false });
    expect(dry).toMatchObject({ ok: true, value: { table: 'B', result: 'not-needed', treatAsControlled: false, advice: null } });
  });

  it.each([
    ['ph', { ph: 14.1 }],
    ['ph', { ph: -1 }],
    ['ph', { ph: NaN }],
    ['waterActivity', { waterActivity: 97 }],
    ['waterActivity', { waterActivity: -0.1 }],
    ['heatTreatedThenPackaged', { heatTreatedThenPackaged: 'yes' }],
    ['heatTreatedThenPackaged', { heatTreatedThenPackaged: undefined }],
  ])('refuses a bad %s', (field, bad) => {
    expect(temperatureControlNeeded.calculate({ ph: 7, waterActivity: 0.9, heatTreatedThenPackaged: true, ...bad })).toMatchObject({
      ok: false,
      field,
    });
  });
});
