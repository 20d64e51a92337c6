import { describe, expect, it } from '@jest/globals';
import { allergensNewIn } from './new-allergens.js';

describe('allergens that were not there before', () => {
  it.each<[string, Parameters<typeof allergensNewIn>, readonly string[], readonly string[]]>([
    ['soya comes in', [{ contains: ['soybeans'], mayContain: [] }, [{ contains: [], mayContain: [] }]], ['soybeans'], []],
    [
      'what was only possible is contained now',
      [{ contains: ['milk'], mayContain: [] }, [{ contains: [], mayContain: ['milk'] }]],
      ['milk'],
      [],
    ],
    [
      'what was contained is possible now: nothing new',
      [{ contains: [], mayContain: ['milk'] }, [{ contains: ['milk'], mayContain: [] }]],
      [],
      [],
    ],
    ['contained, and so not only possible', [{ contains: ['sesame'], mayContain: ['sesame'] }, []], ['sesame'], []],
    [
      'newly possible',
      [{ contains: ['wheat'], mayContain: ['sesame', 'wheat'] }, [{ contains: ['wheat'], mayContain: [] }]],
      [],
      ['sesame'],
    ],
    [
      'one of several before had it',
      [
        { contains: ['rye', 'wheat'], mayContain: [] },
        [
          { contains: ['rye'], mayContain: [] },
          { contains: ['wheat'], mayContain: [] },
        ],
      ],
      [],
      [],
    ],
    ['in the order of the list', [{ contains: ['milk', 'wheat'], mayContain: [] }, []], ['wheat', 'milk'], []],
  ])('%s', (_case, args, contains, mayContain) => {
    expect(allergensNewIn(...args)).toEqual({ contains, mayContain });
  });
});
