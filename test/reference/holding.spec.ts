import { describe, expect, it } from '@jest/globals';
import { holding } from '@bakehouse/sums';
import { profile, type Pair } from '../support/profiles.js';

describe('holding', () => {
  it.each<[string, string, Pair[], string, boolean]>([
    [
      'FDA Food Code 3-501.16',
      'cold-us',
      [
        [0, 5],
        [600, 5],
      ],
      'pass',
      false,
    ],
    [
      'FDA Food Code 3-501.16',
      'cold-us',
      [
        [0, 5],
        [600, 5.1],
      ],
      'fail',
      false,
    ],
    [
      'FDA Food Code 3-501.16',
      'hot-us',
      [
        [0, 57],
        [600, 57],
      ],
      'pass',
      false,
    ],
    [
      'FDA Food Code 3-501.16',
      'hot-us',
      [
        [0, 57],
        [600, 56.9],
      ],
      'fail',
      false,
    ],
    [
      'FDA Food Code 3-501.19(B)',
      'four-hour',
      [
        [0, 5],
        [240, 30],
      ],
      'pass',
      false,
    ],
    [
      'FDA Food Code 3-501.19(B)',
      'four-hour',
      [
        [0, 6],
        [10, 30],
      ],
      'fail',
      false,
    ],
    [
      'FDA Food Code 3-501.19(C)',
      'six-hour',
      [
        [0, 5],
        [360, 21],
      ],
      'pass',
      false,
    ],
    [
      'FDA Food Code 3-501.19(C)',
      'six-hour',
      [
        [0, 5],
        [100, 21.5],
      ],
      'fail',
      false,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'cold-england',
      [
        [0, 8],
        [600, 8],
      ],
      'pass',
      false,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'cold-england',
      [
        [0, 8.1],
        [239.99, 8.1],
      ],
      'fail',
      true,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'cold-england',
      [
        [0, 8.1],
        [240, 8.1],
      ],
      'fail',
      false,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'hot-england',
      [
        [0, 63],
        [600, 63],
      ],
      'pass',
      false,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'hot-england',
      [
        [0, 62],
        [119.99, 62],
      ],
      'fail',
      true,
    ],
    [
      'SI 2013/2996 Sch. 4',
      'hot-england',
      [
        [0, 62],
        [120, 62],
      ],
      'fail',
      false,
    ],
  ])('%s, %s: %j', (_, rule, pairs, verdict, defenceCouldApply) => {
    expect(holding.calculate({ profile: profile(...pairs), rule })).toMatchObject({ ok: true, value: { verdict, defenceCouldApply } });
  });
});
