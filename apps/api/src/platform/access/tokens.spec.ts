import { createHash } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import { mintToken, readToken } from './tokens.js';

const organisation = '0190a6d0-7b3c-7000-8000-000000000001';

describe('a token', () => {
  it('says whose it is and gives back what was stored of it', () => {
    const { token, hash } = mintToken(organisation);
    expect(readToken(token)).toEqual({ organisation, hash });
    expect(hash).toEqual(createHash('sha256').update(token).digest());
    expect(token.length - organisation.length).toBe(1 + 43);
  });

  it.each([
    undefined,
    '',
    'x',
    organisation,
    `${organisation}.`,
    `${organisation.toUpperCase()}.abc`,
    `x${organisation}.abc`,
    `${organisation}.a b`,
    `${organisation}.${'a'.repeat(65)}`,
    `${organisation}.a.b`,
  ])('is not %s', (text) => {
    expect(readToken(text)).toBeUndefined();
  });
});
