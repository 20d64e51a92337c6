import { describe, expect, it } from '@jest/globals';
import { draftFault } from './draft-fault.js';

describe('draftFault', () => {
  it.each([[{}], [{ name: 'Pâté 🥐 \u202eעברית', lines: [{ mg: 5 }, null, 'x'] }]])('keeps %j', (content) => {
    expect(draftFault(content)).toBeUndefined();
  });

  it.each([
    ['a NUL', { name: 'a\u0000' }],
    ['half a character', { lines: ['\ud83e'] }],
    ['a name with a NUL', { 'a\u0000': 1 }],
    ['a number too large', JSON.parse('{"mg":1e400}') as unknown],
    ...[30, 500_000].map((n): [string, unknown] => [`${n} levels`, JSON.parse(`{"a":${'['.repeat(n)}${']'.repeat(n)}}`)]),
    ['more than anybody types', { lines: Array.from({ length: 60_000 }, (_, i) => i) }],
  ])('does not keep %s', (_what, content) => {
    expect(draftFault(content)).toEqual(expect.any(String));
  });
});
