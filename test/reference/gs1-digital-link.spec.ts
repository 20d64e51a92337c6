import { describe, expect, it } from '@jest/globals';
import { gs1DigitalLink } from '@bakehouse/standards';
import { answered, pairs, parse, rulesOf } from '../support/gs1.js';

describe('Digital Links', () => {
  // Examples of the GS1 Digital Link standard, as GS1’s own syntax engine tests them (gs1/gs1-syntax-engine, dl.c).
  it.each([
    ['https://id.gs1.org/01/09520123456788', '(01)09520123456788'],
    ['https://id.gs1.org/01/09520123456788/22/2A', '(01)09520123456788(22)2A'],
    ['https://id.gs1.org/01/09520123456788/10/ABC1/21/12345?17=180426', '(01)09520123456788(10)ABC1(21)12345(17)180426'],
    ['https://example.com/01/09520123456788?3103=000195&3922=0299&17=201225', '(01)09520123456788(3103)000195(3922)0299(17)201225'],
    [
      'https://id.gs1.org/00/952012345678912345?02=09520123456788&37=25&10=ABC123',
      '(00)952012345678912345(02)09520123456788(37)25(10)ABC123',
    ],
    ['https://id.gs1.org/414/9520123456788/254/32a%2Fb', '(414)9520123456788(254)32a/b'],
    ['https://example.com/8004/9520614141234567?01=09520123456788', '(8004)9520614141234567(01)09520123456788'],
    ['https://id.gs1.org/01/09520123456788/235/XYZ?10=ABC123', '(01)09520123456788(235)XYZ(10)ABC123'],
    ['https://a/00/faux/00/006141411234567890', '(00)006141411234567890'],
    ['https://a/stem/401/12345678?99=ABC', '(401)12345678(99)ABC'],
    ['https://a/01/12312312312333?&&&99=ABC&unknown=666&singleton&98=XYZ&&#fragment', '(01)12312312312333(99)ABC(98)XYZ'],
    ['https://a/01/12312312312333/22/ABC+123?99=ABC&98=XYZ%2f987', '(01)12312312312333(22)ABC+123(99)ABC(98)XYZ/987'],
    ['HTTPS://a:65535/00/006141411234567890?', '(00)006141411234567890'],
  ])('%s holds %s', (uri, expected) => {
    expect(pairs(uri)).toBe(expected);
    expect(rulesOf(uri)).toEqual([]);
  });

  it.each([
    'http://',
    'http:///',
    'http://a',
    'http://a/',
    'http://a/b',
    'http://a/b/',
    'HtTp://a/b/00/006141411234567890',
    'https://00/006141411234567890',
    'https://a/01/12312312312333<bad',
    'https://a/stem/00/006141411234567890/',
    'https://a/01//12312312312333',
    'https://a/01/12312312312333/10/',
    'https://a/01/12312312312333/99/ABC',
    'https://a/gtin/12312312312333',
    'https://a/01/12312312312333/22/ABC%2d123?99=ABC&98=XYZ+987',
    'https://a/01/12312312312333?99=',
    'https://a/01/12312312312333?99=ABC&999=faux',
    'https://example.com/01/09520123456788?10=ABC123',
    'https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&01=09520123456788',
    'https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&99=XYZ789',
    'https://example.com/01/09520123456788/89/ABC123?99=XYZ',
    'https://a/01/2112345678900',
    'https://a/01/12312312312333/21/A/10/B',
    'https://a/01/12312312312333?7040=1ABC',
    'https://a/253/1231231231232TEST56789012345678',
    'https://a/01/12312312312333?99=ABC%00DEF',
  ])('%s is not sound, as the syntax engine says too', (uri) => {
    expect(parse(uri).valid).toBe(false);
  });

  it('qualifiers go in the standard’s order, the rest by identifier', () => {
    const text = '(21)S1(17)261231(10)L1(3103)000195(22)V1(01)09520123456788';
    expect(answered(gs1DigitalLink.calculate({ text, stem: 'https://example.com/some/path/' })).uri).toBe(
      'https://example.com/some/path/01/09520123456788/22/V1/10/L1/21/S1?17=261231&3103=000195',
    );
  });

  it('every character of the set is encoded but letters, digits and - . _ ~ (GS1 syntax engine, dl.c)', () => {
    const uri = answered(
      gs1DigitalLink.calculate({
        elements: [
          { ai: '01', value: '09520123456788' },
          { ai: '240', value: `!"%&'()*+,-./:;<=>?_Az09` },
        ],
      }),
    ).uri;
    expect(uri).toBe('https://id.gs1.org/01/09520123456788?240=%21%22%25%26%27%28%29%2A%2B%2C-.%2F%3A%3B%3C%3D%3E%3F_Az09');
  });

  it('of several keys the first is taken under which all the rest can stand', () => {
    expect(answered(gs1DigitalLink.calculate({ text: '(00)376104250021234569(01)09520123456788(21)S1' })).uri).toBe(
      'https://id.gs1.org/01/09520123456788/21/S1?00=376104250021234569',
    );
  });

  it.each([
    [{ text: '(10)A', codesBeside: true }, 'text', 'needs a key'],
    [{ text: '(01)09520123456788(7040)1ABC' }, 'text', '(7040)'],
    [{ text: '(01)09520123456788', stem: 'ftp://a' }, 'stem', 'http'],
    [{ text: '(01)09520123456788', stem: 'https://a/?x=1' }, 'stem', 'http'],
    [
      {
        elements: [
          { ai: '01', value: '09520123456788' },
          { ai: '01', value: '09520123456788' },
        ],
      },
      'elements',
      'only once',
    ],
  ])('cannot build from %j', (input, field, says) => {
    expect(gs1DigitalLink.calculate(input)).toMatchObject({ ok: false, field, acceptable: expect.stringContaining(says) });
  });
});
