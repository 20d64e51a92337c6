import type { OrderOfDay, ProductOnHand } from '@bakehouse/views';
import { describe, expect, it } from '@jest/globals';
import { goes, isChanged, roundLines, stepped } from './round-lines';

const onHand = (product: string): ProductOnHand => ({
  ...{ product, name: `the ${product}`, lots: [], onHold: 0, pastDate: 0 },
  left: product === 'slice' ? 0 : 20,
});
const order: OrderOfDay = {
  day: '2026-11-27',
  at: '2026-11-27T05:50:00.000Z',
  lines: [
    { product: 'tin', name: 'the tin', pieces: 4 },
    { product: 'tart', name: 'the tart', pieces: 2 },
    { product: 'slice', name: 'the slice', pieces: 6 },
    { product: 'bap', name: 'the bap', pieces: null },
  ],
  unnamed: 0,
};
const lines = (changed: readonly (readonly [string, string])[]) =>
  roundLines(order, new Map(changed.map(([p, pieces]) => [p, { pieces, lot: null }])), ['tin', 'bap', 'roll', 'slice'].map(onHand));
const said = (changed: readonly (readonly [string, string])[]) => lines(changed).map((l) => [l.name, goes(l), isChanged(l)]);

describe('the lines of a drop', () => {
  it('are those of the order; of what is not there nothing goes, and of what nobody gave a figure for none is made up', () => {
    expect(said([])).toEqual([
      ['the bap', 0, false],
      ['the slice', 0, true],
      ['the tart', 0, true],
      ['the tin', 4, false],
    ]);
  });
  it('are changed, taken off and added by exception', () => {
    expect(
      said([
        ['tin', '0'],
        ['bap', '6'],
        ['roll', '10'],
      ]),
    ).toEqual([
      ['the bap', 6, true],
      ['the slice', 0, true],
      ['the tart', 0, true],
      ['the tin', 0, true],
      ['the roll', 10, true],
    ]);
  });
  it('have no line for a product that was tapped and not typed', () => {
    expect(said([['roll', '']])).toHaveLength(4);
  });
  it('step by one, and not below none', () => {
    expect([stepped('4', -1), stepped('0', -1), stepped('', 1), stepped('', -1)]).toEqual(['3', '0', '1', '0']);
  });
});
