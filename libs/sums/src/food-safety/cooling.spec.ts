import { describe, expect, it } from '@jest/globals';
import { coolingOf } from '../../../../test/support/cooling.js';
import { type Pair } from '../../../../test/support/profiles.js';

const verdicts = (pairs: readonly Pair[], more?: Record<string, unknown>) => coolingOf(pairs, more).stages.map((stage) => stage.verdict);

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
    const out = coolingOf([
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
      coolingOf([
        [0, 57],
        [30, 57],
        [150, 21],
        [390, 5],
      ]).verdict,
    ).toBe('pass');
    expect(
      coolingOf([
        [0, 90],
        [600, 57],
        [720, 21],
        [960, 5],
      ]).verdict,
    ).toBe('pass');
  });

  it('leaves the cooking out, and says so', () => {
    const out = coolingOf([
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
    const out = coolingOf([
      [0, 80],
      [30, 57],
    ]);
    expect(out.stages[0]).toMatchObject({ verdict: 'open', observedMinutes: null, reached: false });
    expect(coolingOf([[0, 80]]).verdict).toBe('open');
    expect(coolingOf([[0, 80]], { rule: 'us-cooked', finished: true }).verdict).toBe('undetermined');
  });

  it('cannot pass where the start was not seen, but can fail', () => {
    expect(
      coolingOf([
        [0, 56.9],
        [60, 21],
        [200, 5],
      ]).verdict,
    ).toBe('undetermined');
    expect(
      coolingOf([
        [0, 56.9],
        [60, 30],
      ]).verdict,
    ).toBe('undetermined');
    expect(
      coolingOf([
        [0, 56.9],
        [121, 21],
        [200, 5],
      ]).verdict,
    ).toBe('fail');
  });
});

describe('warming again', () => {
  it('counts a stage until the food is below its end for good', () => {
    const back = coolingOf([
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
    const out = coolingOf([
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
    const out = coolingOf([
      [0, 57],
      [60, 21],
      [300, 5],
      [900, 9],
    ]);
    expect(out.verdict).toBe('pass');
    expect(out.cautions.join(' ')).toMatch(/holding rule/);
  });
});
