import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { cooling } from './cooling.js';
import { coolingOf, limit } from '../../../../test/support/cooling.js';
import { profile, type Pair } from '../../../../test/support/profiles.js';

const verdicts = (pairs: readonly Pair[], more?: Record<string, unknown>) => coolingOf(pairs, more).stages.map((stage) => stage.verdict);

describe('cooling from ambient, and own stages', () => {
  it('passes at 4:00:00 and fails after it', () => {
    expect(
      coolingOf(
        [
          [0, 25],
          [240, 5],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('pass');
    expect(
      coolingOf(
        [
          [0, 25],
          [240.0001, 5],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('fail');
    expect(
      coolingOf(
        [
          [0, 25],
          [239, 5.1],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('open');
    expect(
      coolingOf(
        [
          [12.1, 25],
          [252.1, 5],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('pass');
  });

  it('finds four hours exactly where the crossings fall on thirds', () => {
    // 57 °C is passed a third of a minute after the start, 5 °C a third of a minute after 240: neither moment has a finite decimal.
    const thirds: Pair[] = [
      [0, 58],
      [1, 55],
      [240, 6],
      [241, 3],
    ];
    expect(coolingOf(thirds, limit(57, 5, 240)).stages[0]).toMatchObject({ verdict: 'pass', observedMinutes: 240 });
    expect(coolingOf(thirds, limit(57, 5, 239.999)).verdict).toBe('fail');
  });

  it('is not upset by minutes added up in binary fractions, a little short of four hours or a little over', () => {
    const added = (step: number, times: number) => Array.from({ length: times }).reduce<number>((sum) => sum + step, 0);
    const [short, over] = [added(0.1, 2400), added(0.3, 800)];
    expect(short).toBeLessThan(240);
    expect(over).toBeGreaterThan(240);
    for (const minutes of [short, over])
      expect(
        coolingOf(
          [
            [0, 25],
            [minutes, 5],
          ],
          { rule: 'us-from-ambient' },
        ).verdict,
      ).toBe('pass');
  });

  it('takes stages as the rule or by their own name, not both', () => {
    const stages = [{ fromCelsius: 63, toCelsius: 8, withinMinutes: 90 }];
    expect(
      coolingOf(
        [
          [0, 70],
          [90, 8],
        ],
        { stages },
      ),
    ).toMatchObject({ verdict: 'pass' });
    expect(
      coolingOf(
        [
          [0, 70],
          [90, 8],
        ],
        { rule: stages },
      ),
    ).toMatchObject({ verdict: 'pass' });
    expect(cooling.calculate({ profile: profile([0, 70]), rule: 'us-cooked', stages })).toMatchObject({ ok: false, field: 'rule' });
    expect(cooling.calculate({ profile: profile([0, 70]) })).toMatchObject({ ok: false, field: 'rule' });
  });

  it('is never better for being slower, and the same with a reading added on the line', () => {
    const order = ['pass', 'open', 'undetermined', 'fail'];
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 1, max: 100 }),
        (first, second, slower) => {
          const at = (k: number): Pair[] => [
            [0, 57],
            [first + k, 21],
            [first + second + k, 5],
          ];
          const [fast, slow] = [coolingOf(at(0)).verdict, coolingOf(at(slower)).verdict];
          expect(order.indexOf(slow)).toBeGreaterThanOrEqual(order.indexOf(fast));
          const split: Pair[] = [
            [0, 57],
            [first / 2, 39],
            [first, 21],
            [first + second / 2, 13],
            [first + second, 5],
          ];
          expect(verdicts(split)).toEqual(verdicts(at(0)));
        },
      ),
    );
  });

  it.each([
    ['profile', { profile: [] }],
    [
      'profile.1.minutes',
      {
        profile: profile([10, 57], [5, 21]),
      },
    ],
    ['profile.0.celsius', { profile: profile([0, NaN]) }],
    ['rule', { rule: 'us' }],
    ['rule', { rule: [] }],
    ['rule.0.toCelsius', { rule: [{ fromCelsius: 21, toCelsius: 57, withinMinutes: 120 }] }],
    ['stages.0.withinMinutes', { rule: undefined, stages: [{ fromCelsius: 57, toCelsius: 21, withinMinutes: -1 }] }],
    ['stages.0.toCelsius', { rule: undefined, stages: [{ fromCelsius: 57, toCelsius: 57, withinMinutes: 1 }] }],
  ])('refuses a bad %s', (field, bad) => {
    const out = cooling.calculate({ profile: profile([0, 57]), rule: 'us-cooked', ...bad });
    expect(out).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/./) });
  });
});
