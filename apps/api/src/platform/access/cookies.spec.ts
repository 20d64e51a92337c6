import { describe, expect, it } from '@jest/globals';
import { readCookies } from './cookies.js';

describe('the cookies of a request', () => {
  // RFC 6265 §5.4: of two by the same name browsers send the more specific one first.
  it.each([
    ['other=1; bakehouse_session=abc.def', 'abc.def'],
    ['bakehouse_session=abc%2Edef', 'abc.def'],
    ['bakehouse_session=first; bakehouse_session=second', 'first'],
    ['not_bakehouse_session=abc; ;=;', undefined],
    ['', undefined],
    [undefined, undefined],
  ])('%s', (header, value) => {
    expect(readCookies(header)['bakehouse_session']).toBe(value);
  });
});
