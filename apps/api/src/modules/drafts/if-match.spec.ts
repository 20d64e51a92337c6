import { describe, expect, it } from '@jest/globals';
import { ProblemException } from '../../platform/http/index.js';
import { readIfMatch, tagOf } from './if-match.js';

describe('readIfMatch', () => {
  // RFC 9110 §13.1.1: a list of entity tags, compared strongly: a weak tag (W/) never matches.
  it.each([
    ['"3"', [3]],
    [' "3" , "12"', [3, 12]],
    ['3', [3]],
    ['W/"3"', []],
    ['"abc"', []],
    ['"3', []],
    ['"1234567890123"', []],
  ])('%s', (header, revisions) => {
    expect(readIfMatch(header)).toEqual({ revisions });
  });

  it.each([undefined, '', '  ', '*'])('asks for a revision where there is none: %s', (header) => {
    expect(() => readIfMatch(header)).toThrow(ProblemException);
  });

  it('reads the tag that it gives', () => {
    expect(readIfMatch(tagOf(7))).toEqual({ revisions: [7] });
  });
});
