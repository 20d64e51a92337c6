import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { openBetween, proposedLines } from './proposed-lines.js';
import type { Row } from '../base/state.js';

const open = (lot: string, at: string, of: Partial<Row<'inUse'>> = {}): Row<'inUse'> => ({
  id: lot + at,
  station: 'm',
  material: 'flour',
  lot,
  name: lot,
  specification: null,
  site: 's',
  at,
  beside: false,
  ...of,
});
const lines = [
  { material: 'flour', mg: 25_000 },
  { material: 'salt', mg: 450 },
];

describe('lines that a make takes by itself', () => {
  it.each<[string, Row<'inUse'>[], Record<string, number | null>, readonly unknown[]]>([
    ['one sack', [open('q', '1')], {}, [['q', 25_000, 'by-recipe']]],
    [
      'a sack that runs out',
      [open('q', '1'), open('r', '2')],
      { q: 16_400 },
      [
        ['q', 16_400, 'estimated'],
        ['r', 8_600, 'by-recipe'],
      ],
    ],
    ['a sack that is empty by the records', [open('q', '1'), open('r', '2')], { q: -200 }, [['r', 25_000, 'by-recipe']]],
    ['more left in the first than is needed', [open('q', '1'), open('r', '2')], { q: 30_000 }, [['q', 25_000, 'estimated']]],
    [
      'nobody knows what was left',
      [open('q', '1'), open('r', '2')],
      { q: null },
      [
        ['q', null, 'estimated'],
        ['r', null, 'estimated'],
      ],
    ],
    ['nothing open', [], {}, [[null, 25_000, 'by-recipe']]],
  ])('%s', (_case, opened, left, flour) => {
    const proposed = proposedLines(lines, null, opened, (lot) => left[lot] ?? null);
    expect(proposed.filter((l) => l.material === 'flour').map((l) => [l.lot, l.mg, l.how])).toEqual(flour);
    expect(proposed.at(-1)).toEqual({ material: 'salt', lot: null, mg: 450, how: 'by-recipe' });
  });

  it.each<[string, Record<string, number>, Record<string, number | null>, readonly unknown[]]>([
    [
      'asks for both where a sack ran out that had enough by the records',
      { q: 30_000 },
      {},
      [
        ['q', null, 'estimated'],
        ['r', null, 'estimated'],
      ],
    ],
    [
      'takes the rest from the second once somebody says what the first gave',
      { q: 30_000 },
      { q: 4_000 },
      [
        ['q', 4_000, 'weighed'],
        ['r', 21_000, 'by-recipe'],
      ],
    ],
    [
      'takes the rest from the first once somebody says what the second gave',
      { q: 30_000 },
      { r: 4_000 },
      [
        ['q', 21_000, 'by-recipe'],
        ['r', 4_000, 'weighed'],
      ],
    ],
    [
      'asks for the second where nobody knows what the first gave',
      { q: 30_000 },
      { q: null },
      [
        ['q', null, 'estimated'],
        ['r', null, 'estimated'],
      ],
    ],
    ['has no second line where the first gave all of it', { q: 30_000 }, { q: 25_000 }, [['q', 25_000, 'weighed']]],
    [
      'guesses what was left where that was less than is needed',
      { q: 16_400 },
      {},
      [
        ['q', 16_400, 'estimated'],
        ['r', 8_600, 'by-recipe'],
      ],
    ],
  ])('%s', (_case, left, said, flour) => {
    const known = { ranOut: (lot: string) => lot === 'q', said: (_material: string, lot: string) => said[lot] };
    const proposed = proposedLines(lines, null, [open('q', '1'), open('r', '2')], (lot) => left[lot] ?? null, known);
    expect(proposed.filter((l) => l.material === 'flour').map((l) => [l.lot, l.mg, l.how])).toEqual(flour);
  });

  it('scales to what was planned', () => {
    expect(proposedLines(lines, 12_725, [], () => null).map((l) => l.mg)).toEqual([12_500, 225]);
  });

  it('takes what is needed, no more and no less, however many sacks it took', () => {
    const sacks = fc.array(fc.integer({ min: -1000, max: 40_000 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(sacks, fc.integer({ min: 1, max: 100_000 }), (left, needed) => {
        const opened = left.map((_l, i) => open(`${i}`, `${i}`));
        const taken = proposedLines([{ material: 'flour', mg: needed }], null, opened, (lot) => left[Number(lot)] ?? null);
        return taken.reduce((sum, l) => sum + (l.mg ?? 0), 0) === needed && taken.every((l) => (l.mg ?? 0) > 0);
      }),
    );
  });

  it('finds what was open at any time between two instants', () => {
    const opened = [open('p', '1'), open('q', '3'), open('r', '5'), open('s', '9')];
    expect(openBetween(opened, [], '4', '6').map((o) => o.lot)).toEqual(['q', 'r']);
  });
});
