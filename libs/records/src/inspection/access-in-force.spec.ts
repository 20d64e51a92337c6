import { describe, expect, it } from '@jest/globals';
import { accessesInForce, letsSee } from './access-in-force.js';

const given = {
  id: 'a',
  person: 'p',
  sites: ['s1', 's2'],
  from: '2026-11-01',
  until: null,
  expires: '2026-11-10T00:00:00.000Z',
  at: '2026-11-05T00:00:00.000Z',
};
const ended = { id: 'e', access: 'a', person: 'p', at: '2026-11-08T00:00:00.000Z' };

describe('accessesInForce', () => {
  it.each([
    ['s1', '2026-11-05T00:00:00.000Z', [], 1],
    ['s2', '2026-11-09T23:59:59.999Z', [], 1],
    ['s3', '2026-11-06T00:00:00.000Z', [], 0],
    ['s1', '2026-11-04T23:59:59.999Z', [], 0],
    ['s1', '2026-11-10T00:00:00.000Z', [], 0],
    ['s1', '2026-11-08T00:00:00.000Z', [ended], 0],
    ['s1', '2026-11-07T23:59:59.999Z', [ended], 1],
    ['s1', '2026-11-09T00:00:00.000Z', [{ ...ended, access: 'b' }], 1],
  ])('%s at %s with endings %j: %d', (site, at, endings, count) => {
    expect(accessesInForce([given], endings, site, at)).toHaveLength(count);
  });
});

describe('letsSee', () => {
  it.each([
    ['2026-10-31', null, false],
    ['2026-11-01', null, true],
    ['2026-11-09', null, true],
    ['2026-11-10', null, false],
    ['2026-11-03', '2026-11-03', true],
    ['2026-11-04', '2026-11-03', false],
  ])('records of %s with a period until %s: %p', (day, until, seen) => {
    expect(letsSee({ from: '2026-11-01', until }, day, '2026-11-09')).toBe(seen);
  });
});
