import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { differences } from './differences.js';
import { merge, overlapping } from './merge.js';

const base = {
  name: 'White',
  lines: [
    { material: 'flour', mg: 100 },
    { material: 'water', mg: 60 },
    { material: 'salt', mg: 2 },
  ],
  makes: null,
};
const line = (material: string, mg: number) => ({ material, mg });

describe('merge', () => {
  it('takes each one’s changes where only one made them', () => {
    const mine = { ...base, lines: [line('flour', 100), line('water', 65), line('salt', 2)] };
    const theirs = { ...base, name: 'White dough', lines: [line('flour', 100), line('malt', 1), line('water', 60)] };
    expect(merge(base, mine, theirs)).toEqual({
      clashes: [],
      value: { name: 'White dough', makes: null, lines: [line('flour', 100), line('malt', 1), line('water', 65)] },
    });
  });

  it('keeps mine where both changed the same, and says so', () => {
    const mine = { ...base, name: 'My white' };
    const theirs = { ...base, name: 'Their white' };
    expect(merge(base, mine, theirs)).toEqual({
      value: mine,
      clashes: [{ path: ['name'], base: 'White', mine: 'My white', theirs: 'Their white' }],
    });
    expect(overlapping(differences(base, mine), differences(base, theirs))).toEqual([['name']]);
  });

  it('loses no line that one threw out while the other changed it', () => {
    const without = { ...base, lines: base.lines.slice(0, 2) };
    const changed = { ...base, lines: [...base.lines.slice(0, 2), line('salt', 3)] };
    for (const [mine, theirs] of [
      [without, changed],
      [changed, without],
    ] as const) {
      const { value, clashes } = merge(base, mine, theirs);
      expect(value).toEqual(changed);
      expect(clashes.map((c) => c.path)).toEqual([['lines', 'salt']]);
    }
  });

  it('keeps an order that one changed, with what the other put in where it stood', () => {
    const mine = { ...base, lines: [line('water', 60), line('flour', 100), line('salt', 2)] };
    const theirs = { ...base, lines: [line('flour', 100), line('malt', 1), line('water', 60), line('salt', 2)] };
    const order = (m: { value: unknown }): unknown => m.value;
    expect(order(merge(base, mine, theirs))).toEqual({
      ...base,
      lines: [line('water', 60), line('flour', 100), line('malt', 1), line('salt', 2)],
    });
    expect(order(merge(base, theirs, mine))).toEqual({
      ...base,
      lines: [line('water', 60), line('flour', 100), line('malt', 1), line('salt', 2)],
    });
  });

  const text = fc.letrec((tie) => ({
    leaf: fc.oneof(fc.integer(), fc.string({ maxLength: 3 }), fc.boolean(), fc.constant(null)),
    node: fc.oneof(
      { maxDepth: 3 },
      tie('leaf'),
      fc.array(tie('node'), { maxLength: 4 }),
      fc.dictionary(fc.constantFrom('key', 'name', 'lines', 'mg'), tie('node')),
    ),
  })).node;

  it('is the other’s text where one changed nothing, and clashes with nobody', () => {
    fc.assert(
      fc.property(text, text, (a, b) => {
        expect(merge(a, a, b)).toEqual({ value: b, clashes: [] });
        expect(merge(a, b, a)).toEqual({ value: b, clashes: [] });
        expect(merge(a, b, b)).toEqual({ value: b, clashes: [] });
      }),
    );
  });

  it('places overlap where one stands in the other', () => {
    const at = (...path: string[]) => ({ path, type: 'changed' as const, before: 1, after: 2 });
    expect(overlapping([at('a', 'b'), at('c'), at('d', 'e')], [at('a'), at('c', 'x'), at('d', 'f')])).toEqual([['a', 'b'], ['c']]);
  });

  it('every clash is a place that both changed', () => {
    fc.assert(
      fc.property(text, text, text, (a, b, c) => {
        const { clashes } = merge(a, b, c);
        for (const clash of clashes)
          expect([differences(clash.mine, clash.theirs).length > 0, differences(clash.base, clash.mine).length > 0]).toEqual([true, true]);
      }),
    );
  });
});
