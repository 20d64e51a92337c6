import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { grouped } from './grouped.js';

describe('rows by a key', () => {
  it('are all there once, in their order, each under its own key', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ key: fc.nat(5), at: fc.nat() })), (rows) => {
        const groups = grouped(rows, (r) => r.key);
        expect([...groups.keys()]).toEqual([...new Set(rows.map((r) => r.key))]);
        for (const [key, group] of groups) expect(group).toEqual(rows.filter((r) => r.key === key));
      }),
    );
  });
});
