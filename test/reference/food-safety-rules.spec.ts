import { describe, expect, it } from '@jest/globals';
import { ccpDecision, cooling, guardedVerdict, probeCheck, temperatureControlNeeded } from '@bakehouse/sums';
import { profile, type Pair } from '../support/profiles.js';

describe('cooling, FDA Food Code 3-501.14', () => {
  it.each<[string, string, Pair[], string]>([
    [
      '(A)',
      '21 °C at 1 h then 5 °C at 6 h: six hours in all',
      [
        [0, 57],
        [60, 21],
        [360, 5],
      ],
      'pass',
    ],
    [
      '(A)',
      'both limits met at their very end',
      [
        [0, 57],
        [120, 21],
        [360, 5],
      ],
      'pass',
    ],
    [
      '(A)',
      'one second late at 21 °C',
      [
        [0, 57],
        [120 + 1 / 60, 21],
        [300, 5],
      ],
      'fail',
    ],
    [
      '(A)',
      'one second late at 5 °C',
      [
        [0, 57],
        [60, 21],
        [360 + 1 / 60, 5],
      ],
      'fail',
    ],
    [
      '(A)',
      '70 °F is not the 21 °C that the Code prints',
      [
        [0, 57],
        [119, 21.05],
        [300, 21.05],
        [301, 5],
      ],
      'fail',
    ],
  ])('3-501.14%s: %s', (_, __, pairs, verdict) => {
    expect(cooling.calculate({ profile: profile(...pairs), rule: 'us-cooked' })).toMatchObject({ ok: true, value: { verdict } });
  });

  it.each([
    [240, 'pass'],
    [240 + 1 / 60, 'fail'],
  ])('3-501.14(B): from ambient ingredients to 5 °C in %p min: %s', (minutes, verdict) => {
    expect(
      cooling.calculate({
        profile: profile([0, 22], [minutes, 5]),
        rule: 'us-from-ambient',
      }),
    ).toMatchObject({ ok: true, value: { verdict } });
  });
});

// FDA Food Code 1-201.10, read cell by cell; N = not needed, A = assess. Each border figure stands in the band the Code prints it with.
describe('FDA Food Code 1-201.10', () => {
  const judged = (heatTreatedThenPackaged: boolean, waterActivity: number, ph: number) => {
    const out = temperatureControlNeeded.calculate({ ph, waterActivity, heatTreatedThenPackaged });
    return out.ok ? { 'not-needed': 'N', assess: 'A' }[out.value.result] : '?';
  };
  it.each([
    [0.5, 'NNNNN'],
    [0.92, 'NNNNN'],
    [0.9201, 'NNNNA'],
    [0.95, 'NNNNA'],
    [0.9501, 'NNAAA'],
    [0.99, 'NNAAA'],
  ])('table A, water activity %p, pH 4.5 4.6 4.61 5.6 5.61: %s', (aw, row) => {
    expect([4.5, 4.6, 4.61, 5.6, 5.61].map((ph) => judged(true, aw, ph)).join('')).toBe(row);
  });
  it.each([
    [0.5, 'NNNNNN'],
    [0.8799, 'NNNNNN'],
    [0.88, 'NNNNNA'],
    [0.9, 'NNNNNA'],
    [0.9001, 'NNNAAA'],
    [0.92, 'NNNAAA'],
    [0.9201, 'NAAAAA'],
    [0.99, 'NAAAAA'],
  ])('table B, water activity %p, pH 4.19 4.2 4.6 4.61 5.0 5.01: %s', (aw, row) => {
    expect([4.19, 4.2, 4.6, 4.61, 5, 5.01].map((ph) => judged(false, aw, ph)).join('')).toBe(row);
  });
  it('custard in both, muffin crumb unpackaged, buttercream', () => {
    expect([judged(true, 0.97, 6.5), judged(false, 0.97, 6.5), judged(false, 0.928, 7), judged(false, 0.87, 7)].join('')).toBe('AAAN');
  });
});

describe('Codex CCP trees', () => {
  const decide = (edition: string, row: string, q1b?: boolean) => {
    const [q1, q2, q3, q4] = [...row].map((c) => c === 'y');
    const out = ccpDecision.calculate({ edition, answers: { q1, q2, q3, q4, ...(q1b === undefined ? {} : { q1b }) } });
    return out.ok ? `${out.value.outcome} ${out.value.decidedBy}` : '?';
  };
  it.each([
    ['yyyy', 'not-ccp Q1'],
    ['yyyn', 'not-ccp Q1'],
    ['yyny', 'not-ccp Q1'],
    ['yynn', 'not-ccp Q1'],
    ['ynyy', 'not-ccp Q1'],
    ['ynyn', 'not-ccp Q1'],
    ['ynny', 'not-ccp Q1'],
    ['ynnn', 'not-ccp Q1'],
    ['nyyy', 'later-step Q3'],
    ['nyyn', 'later-step Q3'],
    ['nyny', 'ccp Q4'],
    ['nynn', 'modify Q4'],
    ['nnyy', 'not-ccp Q2'],
    ['nnyn', 'not-ccp Q2'],
    ['nnny', 'not-ccp Q2'],
    ['nnnn', 'not-ccp Q2'],
  ])('CXC 1-1969, text of 2022 (Q3 and Q4 from memory): %s → %s', (row, expected) => {
    expect(decide('2022', row)).toBe(expected);
  });
  it.each([
    ['yyyy', 'ccp Q2'],
    ['yyyn', 'ccp Q2'],
    ['yyny', 'ccp Q2'],
    ['yynn', 'ccp Q2'],
    ['ynyy', 'not-ccp Q4'],
    ['ynyn', 'ccp Q4'],
    ['ynny', 'not-ccp Q3'],
    ['ynnn', 'not-ccp Q3'],
    ['nyyy', 'modify Q1b'],
    ['nyyn', 'modify Q1b'],
    ['nyny', 'modify Q1b'],
    ['nynn', 'modify Q1b'],
    ['nnyy', 'modify Q1b'],
    ['nnyn', 'modify Q1b'],
    ['nnny', 'modify Q1b'],
    ['nnnn', 'modify Q1b'],
  ])('CAC/RCP 1-1969 Rev. 3 (1997) and Rev. 4 (2003), control needed for safety: %s → %s', (row, expected) => {
    for (const edition of ['1997', '2003']) expect(decide(edition, row, true)).toBe(expected);
    if (row.startsWith('n')) expect(decide('2003', row, false)).toBe('not-ccp Q1b');
  });
});

describe('probe checks, regulators’ guidance: ice 0 ± 1 °C, boiling ± 1 °C about the local value', () => {
  it('a perfect probe at 300 m shows 98.98 °C and passes, though outside a fixed 99 to 101 °C', () => {
    const out = probeCheck.calculate({ kind: 'boiling', readCelsius: 98.98, toleranceCelsius: 1, altitudeMetres: 300 });
    expect(out).toMatchObject({ ok: true, value: { verdict: 'pass' } });
  });
  it('a probe that shows 100.5 °C at 1500 m is 5.5 °C too high', () => {
    expect(probeCheck.calculate({ kind: 'boiling', readCelsius: 100.5, toleranceCelsius: 1, altitudeMetres: 1500 })).toMatchObject({
      ok: true,
      value: { verdict: 'fail', offsetCelsius: expect.closeTo(5.52, 1) },
    });
  });
  it.each([
    [1, 'pass'],
    [-1, 'pass'],
    [1.1, 'fail'],
    [-1.1, 'fail'],
  ])('ice, %p °C: %s', (readCelsius, verdict) => {
    expect(probeCheck.calculate({ kind: 'ice', readCelsius, toleranceCelsius: 1 })).toMatchObject({ ok: true, value: { verdict } });
  });
});

describe('readings against a limit', () => {
  it.each([
    ['SI 2013/2996 Sch. 4: food not above 8 °C', 8, { max: 8, unit: 'degC' }, 'within'],
    ['SI 2013/2996 Sch. 4: food not above 8 °C', 8.1, { max: 8, unit: 'degC' }, 'outside'],
    ['SI 2013/2996 Sch. 4: food not below 63 °C', 63, { min: 63, unit: 'degC' }, 'within'],
    ['FDA Food Code 3-501.14 prints 70 °F', 21.05, { max: 70, unit: 'degF' }, 'within'],
    ['FDA Food Code 3-501.14 prints 21 °C', 21.05, { max: 21, unit: 'degC' }, 'outside'],
  ])('%s: %p °C', (_, value, limit, verdict) => {
    expect(guardedVerdict.calculate({ value, unit: 'degC', limit, halfWidth: 0 })).toMatchObject({ ok: true, value: { verdict } });
  });

  // The rule of JCGM 106:2012, 8.3.2 (from memory): acceptance ends one guard band inside the tolerance limit, rejection starts one outside it.
  const aroundSixty = [
    ['59.5', 'within'],
    ['59.51', 'unsure'],
    ['60.49', 'unsure'],
    ['60.5', 'outside'],
  ] as const;
  it.each(aroundSixty)('a guard band of 0.5 at an upper limit of 60: %s is %s', (value, verdict) => {
    const out = guardedVerdict.calculate({ value, unit: 'g', limit: { max: '60', unit: 'g' }, halfWidth: '0.5' });
    expect(out).toMatchObject({ ok: true, value: { verdict } });
  });
});
