import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { isDeepStrictEqual } from 'node:util';
import { differences, membersOf } from './differences.js';

const line = (material: string, mg: number) => ({ material, mg });

describe('differences', () => {
  it('a line put in at the top is one difference', () => {
    expect(differences({ lines: [line('a', 1), line('b', 2)] }, { lines: [line('c', 3), line('a', 1), line('b', 2)] })).toEqual([
      { path: ['lines', 'c'], type: 'added', before: undefined, after: line('c', 3) },
    ]);
  });

  it('names the field of the line that changed, and what is gone', () => {
    expect(differences({ lines: [line('a', 1), line('b', 2)] }, { lines: [line('a', 5)] })).toEqual([
      { path: ['lines', 'a', 'mg'], type: 'changed', before: 1, after: 5 },
      { path: ['lines', 'b'], type: 'removed', before: line('b', 2), after: undefined },
    ]);
  });

  it('tells a changed order, also of a material that stands twice', () => {
    const [a, b] = [line('salt', 1), line('salt', 2)];
    expect(differences([a, line('w', 1), b], [a, b, line('w', 1)])).toEqual([
      {
        path: [],
        type: 'moved',
        before: ['salt', 'w', 'salt (2)'],
        after: ['salt', 'salt (2)', 'w'],
      },
    ]);
  });

  it.each([
    [null, {}],
    [[], {}],
    [{ a: null }, {}],
    [1, '1'],
    [[1, 2], [1]],
    [['a'], ['a', 'a']],
  ])('%j and %j differ', (a, b) => {
    expect(differences(a, b)).not.toEqual([]);
  });

  it('there is a difference exactly where two values are not the same', () => {
    const members = fc.record({ key: fc.constantFrom('k', 'l', 'm'), mg: fc.integer({ min: 0, max: 2 }) }, { noNullPrototype: true });
    const json = fc.oneof(
      fc.array(members, { maxLength: 4 }),
      fc.jsonValue({ maxDepth: 3 }),
      fc.record({ x: fc.array(members, { maxLength: 3 }), y: fc.boolean() }, { noNullPrototype: true }),
    );
    fc.assert(fc.property(json, json, (a, b) => (differences(a, b).length === 0) === isDeepStrictEqual(a, b)));
    fc.assert(fc.property(json, (a) => differences(a, structuredClone(a)).length === 0));
  });

  it('loses no member where one is called as a second one of another would be', () => {
    const list = [
      { key: 'a', n: 1 },
      { key: 'a (2)', n: 2 },
      { key: 'a', n: 3 },
    ];
    expect([...membersOf(list).values()]).toEqual(list);
    expect(differences(list, [list[0], list[1], { key: 'a', n: 4 }])).toHaveLength(1);
  });
});
