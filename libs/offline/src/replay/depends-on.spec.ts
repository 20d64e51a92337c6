import { describe, expect, it } from '@jest/globals';
import { dependsOn } from './depends-on.js';

const madeBy = new Map([
  ['make', 'entry 1'],
  ['run', 'entry 2'],
  ['entry 1', 'entry 1'],
]);

describe('what an entry builds on', () => {
  it.each([
    ['nothing that waits', { make: 'another' }, undefined, []],
    ['an id anywhere in its payload', { lines: [{ run: 'run', pieces: 3 }] }, undefined, ['entry 2']],
    ['several, each once', { a: 'make', b: ['run', 'make', null, 4] }, undefined, ['entry 1', 'entry 2']],
    ['what it corrects', {}, 'entry 1', ['entry 1']],
  ] as const)('is %s', (_what, payload, corrects, expected) => {
    expect(dependsOn(payload, corrects, madeBy)).toEqual(expected);
  });

  it('names no more than an envelope may', () => {
    const many = new Map(Array.from({ length: 30 }, (_, i) => [`row ${i}`, `entry ${i}`]));
    expect(dependsOn([...many.keys()], undefined, many)).toEqual(Array.from({ length: 20 }, (_, i) => `entry ${i + 10}`));
  });
});
