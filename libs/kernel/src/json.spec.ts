import { describe, expect, it } from '@jest/globals';
import { readJson } from './json.js';

describe('JSON from outside', () => {
  it.each(['1', 'null', '"toString"', '{"constructor":1}', '{"a":["\\u0041"]}', `${'['.repeat(100_000)}"\\u0041"${']'.repeat(100_000)}`])(
    'is read: %.40s',
    (text) => expect(readJson(text).ok).toBe(true),
  );

  it.each([
    ['{"edition":{"toString":1}}', 'edition.toString'],
    ['[{"a":1},{"b":{"valueOf":null}}]', '1.b.valueOf'],
    ['{"__proto__":{"x":1}}', '__proto__'],
    ['{"\\u005f_proto__":1}', '__proto__'],
    ['{"a":{"constructor":{"prototype":{}}}}', 'a.constructor.prototype'],
  ])('%s is refused, and the name is said', (text, field) => {
    expect(readJson(text)).toMatchObject({ ok: false, problem: 'malformed', field });
  });

  it.each(['', '{', 'NaN', '['.repeat(1_000_000)])('%.20s is none', (text) => {
    expect(readJson(text)).toEqual({ ok: false, problem: 'malformed-json' });
  });
});
