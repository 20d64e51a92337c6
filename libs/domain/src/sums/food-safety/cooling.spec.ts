import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { cooling } from './cooling.js';

type Pair = readonly [minutes: number, celsius: number];
const points = (pairs: readonly Pair[]) => pairs.map(([minutes, celsius]) => ({ minutes, celsius }));
const answer = (pairs: readonly Pair[], more: Record<string, unknown> = { rule: 'us-cooked' }) => {
  const outcome = cooling.calculate({ profile: points(pairs), ...more });
  if (!outcome.ok) throw new Error(`${outcome.field}: ${outcome.acceptable}`);
  return outcome.value;
};
const verdicts = (pairs: readonly Pair[], more?: Record<string, unknown>) => answer(pairs, more).stages.map((stage) => stage.verdict);
const limit = (fromCelsius: number | null, toCelsius: number, withinMinutes: number) => ({
  rule: [{ fromCelsius, toCelsius, withinMinutes }],
});

describe('cooling of cooked food', () => {
  it('passes at the very end of each limit, and fails just after it', () => {
    expect(
      verdicts([
        [0, 57],
        [120, 21],
        [360, 5],
      ]),
    ).toEqual(['pass', 'pass']);
    expect(
      verdicts([
        [0, 57],
        [120.001, 21],
        [360, 5],
      ]),
    ).toEqual(['fail', 'pass']);
    expect(
      verdicts([
        [0, 57],
        [120, 21],
        [360.001, 5],
      ]),
    ).toEqual(['pass', 'fail']);
  });

  it('counts the second limit from 57 °C: six hours in all', () => {
    expect(
      verdicts([
        [0, 57],
        [60, 21],
        [360, 5],
      ]),
    ).toEqual(['pass', 'pass']);
    expect(
      verdicts([
        [0, 57],
        [110, 21],
        [361, 5],
      ]),
    ).toEqual(['pass', 'fail']);
  });

  it('finds the moments between readings', () => {
    const out = answer([
      [0, 67],
      [10, 47],
      [110, 17],
      [310, 1],
    ]);
    const expected = [10 - 5 + (26 / 30) * 100, 310 - 5 - 50];
    expect(out.stages.map((stage) => stage.observedMinutes)).toEqual(expected.map((m) => expect.closeTo(m, 9)));
  });

  it('judges the °C of the Code and not the rounded °F', () => {
    expect(
      verdicts([
        [0, 57],
        [120, 21.05],
        [200, 5],
      ])[0],
    ).toBe('fail');
  });

  it('starts the clock when the food first falls below 57 °C, after any time at 57 or above', () => {
    expect(
      answer([
        [0, 57],
        [30, 57],
        [150, 21],
        [390, 5],
      ]).verdict,
    ).toBe('pass');
    expect(
      answer([
        [0, 90],
        [600, 57],
        [720, 21],
        [960, 5],
      ]).verdict,
    ).toBe('pass');
  });

  it('leaves the cooking out, and says so', () => {
    const out = answer([
      [0, 4],
      [60, 95],
      [100, 57],
      [220, 21],
      [460, 5],
    ]);
    expect(out.verdict).toBe('pass');
    expect(out.cautions.join(' ')).toMatch(/taken as its cooking/);
  });
});

describe('a profile that does not tell everything', () => {
  it('is open while time remains and fails when it is over', () => {
    expect(
      verdicts([
        [0, 57],
        [100, 30],
      ]),
    ).toEqual(['open', 'open']);
    expect(
      verdicts([
        [0, 57],
        [100, 20],
        [200, 12],
      ]),
    ).toEqual(['pass', 'open']);
    expect(
      verdicts([
        [0, 57],
        [120, 22],
      ]),
    ).toEqual(['fail', 'open']);
    expect(
      verdicts([
        [0, 57],
        [100, 20],
        [361, 6],
      ]),
    ).toEqual(['pass', 'fail']);
  });

  it('fails what was never shown where no more readings will come', () => {
    expect(
      verdicts(
        [
          [0, 57],
          [100, 30],
        ],
        { rule: 'us-cooked', finished: true },
      ),
    ).toEqual(['fail', 'fail']);
  });

  it('has not started while the food is still hot', () => {
    const out = answer([
      [0, 80],
      [30, 57],
    ]);
    expect(out.stages[0]).toMatchObject({ verdict: 'open', observedMinutes: null, reached: false });
    expect(answer([[0, 80]]).verdict).toBe('open');
    expect(answer([[0, 80]], { rule: 'us-cooked', finished: true }).verdict).toBe('undetermined');
  });

  it('cannot pass where the start was not seen, but can fail', () => {
    expect(
      answer([
        [0, 56.9],
        [60, 21],
        [200, 5],
      ]).verdict,
    ).toBe('undetermined');
    expect(
      answer([
        [0, 56.9],
        [60, 30],
      ]).verdict,
    ).toBe('undetermined');
    expect(
      answer([
        [0, 56.9],
        [121, 21],
        [200, 5],
      ]).verdict,
    ).toBe('fail');
  });
});

describe('warming again', () => {
  it('counts a stage until the food is below its end for good', () => {
    const back = answer([
      [0, 57],
      [90, 21],
      [100, 25],
      [110, 21],
      [300, 5],
    ]);
    expect(back.stages[0]).toMatchObject({ verdict: 'pass', observedMinutes: 110, rewarmed: true });
    expect(
      verdicts([
        [0, 57],
        [90, 21],
        [100, 25],
        [130, 21],
        [300, 5],
      ]),
    ).toEqual(['fail', 'pass']);
    expect(
      verdicts([
        [0, 57],
        [90, 20],
        [110, 24],
      ]),
    ).toEqual(['open', 'open']);
  });

  it('does not restart the clock above 57 °C, and says so', () => {
    const out = answer([
      [0, 57],
      [60, 40],
      [70, 60],
      [130, 21],
      [300, 5],
    ]);
    expect(out.stages[0]).toMatchObject({ verdict: 'fail', observedMinutes: 130 });
    expect(out.cautions.join(' ')).toMatch(/not restarted/);
  });

  it('leaves what happens after cooling to the holding rule', () => {
    const out = answer([
      [0, 57],
      [60, 21],
      [300, 5],
      [900, 9],
    ]);
    expect(out.verdict).toBe('pass');
    expect(out.cautions.join(' ')).toMatch(/holding rule/);
  });
});

describe('cooling from ambient, and own stages', () => {
  it('passes at 4:00:00 and fails after it', () => {
    expect(
      answer(
        [
          [0, 25],
          [240, 5],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('pass');
    expect(
      answer(
        [
          [0, 25],
          [240.0001, 5],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('fail');
    expect(
      answer(
        [
          [0, 25],
          [239, 5.1],
        ],
        { rule: 'us-from-ambient' },
      ).verdict,
    ).toBe('open');
    expect(
      answer(
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
    expect(answer(thirds, limit(57, 5, 240)).stages[0]).toMatchObject({ verdict: 'pass', observedMinutes: 240 });
    expect(answer(thirds, limit(57, 5, 239.999)).verdict).toBe('fail');
  });

  it('is not upset by minutes added up in binary fractions, a little short of four hours or a little over', () => {
    const added = (step: number, times: number) => Array.from({ length: times }).reduce<number>((sum) => sum + step, 0);
    const [short, over] = [added(0.1, 2400), added(0.3, 800)];
    expect(short).toBeLessThan(240);
    expect(over).toBeGreaterThan(240);
    for (const minutes of [short, over])
      expect(
        answer(
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
      answer(
        [
          [0, 70],
          [90, 8],
        ],
        { stages },
      ),
    ).toMatchObject({ verdict: 'pass' });
    expect(
      answer(
        [
          [0, 70],
          [90, 8],
        ],
        { rule: stages },
      ),
    ).toMatchObject({ verdict: 'pass' });
    expect(cooling.calculate({ profile: points([[0, 70]]), rule: 'us-cooked', stages })).toMatchObject({ ok: false, field: 'rule' });
    expect(cooling.calculate({ profile: points([[0, 70]]) })).toMatchObject({ ok: false, field: 'rule' });
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
          const [fast, slow] = [answer(at(0)).verdict, answer(at(slower)).verdict];
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
        profile: points([
          [10, 57],
          [5, 21],
        ]),
      },
    ],
    ['profile.0.celsius', { profile: points([[0, NaN]]) }],
    ['rule', { rule: 'us' }],
    ['rule', { rule: [] }],
    ['rule.0.toCelsius', { rule: [{ fromCelsius: 21, toCelsius: 57, withinMinutes: 120 }] }],
    ['stages.0.withinMinutes', { rule: undefined, stages: [{ fromCelsius: 57, toCelsius: 21, withinMinutes: -1 }] }],
    ['stages.0.toCelsius', { rule: undefined, stages: [{ fromCelsius: 57, toCelsius: 57, withinMinutes: 1 }] }],
  ])('refuses a bad %s', (field, bad) => {
    const out = cooling.calculate({ profile: points([[0, 57]]), rule: 'us-cooked', ...bad });
    expect(out).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/./) });
  });
});
