import { describe, expect, it } from '@jest/globals';
import { gs1Calculations, gs1CheckDigit, gs1DigitalLink, gs1ElementString, isoDate, fullYear } from '@bakehouse/standards';
import { answered, pairs, parse, rulesOf } from '../support/gs1.js';

describe('check digits', () => {
  // GS1’s published worked examples of the calculation (GTIN-13 and SSCC), and GTINs of the GS1 Digital Link standard’s examples.
  it.each([
    ['629104150021', 3],
    ['37610425002123456', 9],
    ['0952012345678', 8],
    ['952012345678', 8],
    ['95201234567891234', 5],
    ['0000000', 0],
  ])('%s → %i', (key, digit) => {
    expect(answered(gs1CheckDigit.calculate({ key }))).toMatchObject({ digit, complete: `${key}${digit}` });
  });

  it('says when the key looks complete already', () => {
    expect(answered(gs1CheckDigit.calculate({ key: '6291041500213' })).cautions.join(' ')).toContain('without its check digit');
  });

  it.each([
    [undefined],
    [''],
    ['12345'],
    ['62910415002A'],
    ['6291 0415 0021'],
    [629104150021],
    ['６２９１０４１５００２１'],
    ['1'.repeat(1000)],
  ])('refuses %p and says what is acceptable', (key) => {
    expect(gs1CheckDigit.calculate({ key })).toMatchObject({
      ok: false,
      problem: 'malformed',
      field: 'key',
      acceptable: expect.stringContaining('7, 11, 12, 13, 16 or 17'),
    });
  });
});

describe('dates', () => {
  it.each([
    [76, 2076],
    [77, 1977],
    [26, 2026],
    [0, 2000],
    [99, 1999],
  ])('in 2026 %i is %i (GS1 General Specifications, determination of century)', (yy, year) => {
    expect(fullYear(yy, 2026)).toBe(year);
  });

  it.each([
    [0, 2095, 2100],
    [45, 2095, 2145],
    [46, 2095, 2046],
    [49, 2000, 2049],
    [50, 2000, 2050],
    [51, 2000, 1951],
    [49, 1999, 2049],
    [48, 1999, 2048],
    [50, 1999, 1950],
  ])('%i in %i is %i, at the edges of the rule', (yy, asOf, year) => {
    expect(fullYear(yy, asOf)).toBe(year);
  });

  it.each([
    ['200600', '2020-06-30'],
    ['200229', '2020-02-29'],
    ['240200', '2024-02-29'],
    ['250200', '2025-02-28'],
    ['991231', '1999-12-31'],
  ])('%s is %s', (text, iso) => {
    expect(isoDate(text, 2026)).toBe(iso);
    expect(parse(`(01)05412345000013(15)${text}`, { asOfYear: 2026 })).toMatchObject({ valid: true, fields: { bestBefore: iso } });
  });

  it.each(['210229', '201310', '200431', '200001', '200132', '2006AA'])('%s is refused as a date', (text) => {
    expect(isoDate(text, 2026)).toBeNull();
    expect(rulesOf(`(01)05412345000013(15)${text}`, { asOfYear: 2026 })).toEqual([text === '2006AA' ? 'charset 15' : 'date 15']);
  });

  it('day 00 is no day of a first freezing date, which needs one', () => {
    expect(rulesOf('(01)05412345000013(7006)260300')).toEqual(['date 7006']);
  });

  it('without a year to see it from a date is judged but not resolved, and that is said', () => {
    const answer = parse('(01)05412345000013(17)260331');
    expect(answer).toMatchObject({ valid: true, fields: { useBy: null }, validRange: null });
    expect(answer.cautions.join(' ')).toContain('not resolved');
  });
});

describe('element strings', () => {
  // The example of GS1’s own toolkit for Digital Links: brackets, FNC1 and link of the same elements.
  const inBrackets = '(3103)000189(01)05412345000013(3923)2172(10)ABC&+123';
  const scanned = '3103000189010541234500001339232172\u001d10ABC&+123';
  const link = 'https://id.gs1.org/01/05412345000013/10/ABC%26%2B123?3103=000189&3923=2172';

  it('the published example goes from brackets to FNC1 to link and back', () => {
    expect(answered(gs1ElementString.calculate({ text: inBrackets }))).toMatchObject({
      elementString: scanned,
      bracketed: inBrackets,
      separators: 1,
    });
    expect(pairs(scanned)).toBe(inBrackets);
    expect(answered(gs1DigitalLink.calculate({ text: inBrackets })).uri).toBe(link);
    expect(answered(gs1DigitalLink.calculate({ text: scanned })).uri).toBe(link);
    expect(pairs(link)).toBe('(01)05412345000013(10)ABC&+123(3103)000189(3923)2172');
    expect(answered(gs1DigitalLink.calculate({ text: link })).uri).toBe(link);
  });

  it.each([
    ['FNC1 in front, as the symbol has it', `\u001d${scanned}`],
    ['GS1-128', `]C1${scanned}`],
    ['GS1 DataMatrix with FNC1', `]d2\u001d${scanned}`],
    ['GS1 QR', `]Q3${scanned}`],
    ['FNC1 after a predefined length, which is tolerated', scanned.replace('000189', '000189\u001d')],
    ['FNC1 at the very end', `${scanned}\u001d`],
  ])('reads it with %s', (_what, text) => {
    expect(pairs(text)).toBe(inBrackets);
    expect(parse(text).valid).toBe(true);
  });

  it('a plain symbol’s number is a GTIN, by the scanner’s word only', () => {
    expect(pairs(']E06291041500213')).toBe('(01)06291041500213');
    expect(pairs(']E402345673')).toBe('(01)00000002345673');
    expect(rulesOf(']E06291041500214')).toEqual(['check-digit 01']);
    expect(rulesOf(']E012345')).toEqual(['form null']);
    expect(parse('6291041500213').valid).toBe(false);
  });

  it.each([
    ['(01)05412345000014', ['check-digit 01']],
    ['(01)5412345000013', ['length 01']],
    ['(01)0541234500001A', ['charset 01']],
    ['(01)05412345000013(10)', ['length 10']],
    ['(01)05412345000013(10)ABCDEFGHIJKLMNOPQRSTU', ['length 10']],
    ['(01)05412345000013(10)AB#1', ['charset 10']],
    ['(01)05412345000013(10)A B', ['charset 10']],
    ['(01)05412345000013(10)Ä', ['charset 10']],
    ['(01)05412345000013(89)1', ['unknown-ai 89']],
    ['(01)05412345000013(3106)000001', ['unknown-ai 3106']],
    ['(02)05412345000013(10)A', ['required 02']],
    ['(02)05412345000013(37)12', ['required 37']],
    ['(00)376104250021234569(02)05412345000013(37)12', []],
    ['(01)05412345000013(37)5', ['excluded 01', 'required 37']],
    ['(3103)000189', ['required 3103']],
    ['(10)ABC', ['required 10']],
    ['(01)05412345000013(02)05412345000013(37)5', ['excluded 01', 'excluded 02', 'required 37']],
    ['(01)05412345000013(3103)000189(3102)000019', ['excluded 3103', 'excluded 3102']],
    ['(01)05412345000013(10)A(10)B', ['repeated 10']],
    ['(01)05412345000013(10)A(10)A', []],
    ['(01)05412345000013(7003)2603312460', ['time 7003']],
    ['(01)05412345000013(4331)001850-', ['required 4331']],
    ['(01)05412345000013(8008)26033104', []],
    ['(01)05412345000013(8008)260331046', ['length 8008']],
    ['01054123450000', ['length 01']],
    ['05412345000013', ['unknown-ai null']],
    ['(01)', ['length 01']],
    ['(1)2', ['form null']],
    ['(01)05412345000013(10', ['form null']],
    ['\u001d', ['form null']],
    ['(01)05412345000013(422)056', []],
    ['(01)05412345000013(422)56', ['length 422']],
  ])('%s breaks %j', (text, expected) => {
    expect(rulesOf(text)).toEqual(expected);
    expect(parse(text).valid).toBe(expected.length === 0);
  });

  it('where other codes stand on the item, what is needed beside may be in them; what is excluded is not', () => {
    expect(rulesOf('(10)ABC', { codesBeside: true })).toEqual([]);
    expect(rulesOf('(01)05412345000013(37)5', { codesBeside: true })).toEqual(['excluded 01']);
  });

  it.each([
    ['3100', '000189', '189', 189_000],
    ['3103', '000189', '0.189', 189],
    ['3105', '000189', '0.00189', 1.89],
    ['3103', '000000', '0.000', 0],
    ['3205', '100000', '1.00000', 453.59],
  ])('(%s)%s is %s, %d g', (ai, value, decimal, netMassGrams) => {
    const answer = parse(`(01)05412345000013(${ai})${value}`);
    expect([answer.elements[1]?.decimal, answer.fields.netMassGrams]).toEqual([decimal, netMassGrams]);
  });

  it('a case of goods in fills the form', () => {
    const answer = parse('(00)376104250021234569(02)05412345000013(37)24(10)L4471(11)260301(13)260302(15)260600(17)260630(3103)012500', {
      asOfYear: 2026,
    });
    expect(answer.fields).toEqual({
      gtin: '05412345000013',
      lot: 'L4471',
      productionDate: '2026-03-01',
      packedOn: '2026-03-02',
      bestBefore: '2026-06-30',
      useBy: '2026-06-30',
      netMassGrams: 12_500,
      count: 24,
    });
  });

  it('what is broken or contradictory fills nothing', () => {
    expect(parse('(01)05412345000014(10)A(10)B(15)261301(3103)00018', { asOfYear: 2026 }).fields).toEqual({
      gtin: null,
      lot: null,
      productionDate: null,
      packedOn: null,
      bestBefore: null,
      useBy: null,
      netMassGrams: null,
      count: null,
    });
  });

  it('says which rules it does not check', () => {
    expect(parse('(01)05412345000013(422)056').cautions.join(' ')).toContain('iso3166');
  });

  it.each([
    [{ elements: [{ ai: '01', value: '05412345000014' }] }, 'elements.0.value'],
    [{ elements: [{ ai: '02', value: '05412345000013' }] }, 'elements.0.value'],
    [
      {
        elements: [
          { ai: '01', value: '05412345000013' },
          { ai: '15', value: '210229' },
        ],
      },
      'elements.1.value',
    ],
    [{ text: '(10)A' }, 'text'],
    [{ text: '(01)05412345000013', asOfYear: 26 }, 'asOfYear'],
    [{ elements: [] }, 'elements'],
    [{}, 'text'],
    [{ text: 'a', elements: [{ ai: '01', value: '1' }] }, 'text'],
    [{ elements: [{ ai: 'x', value: '1' }] }, 'elements.0.ai'],
    [{ elements: [{ ai: '01', value: '' }] }, 'elements.0.value'],
    [{ text: '' }, 'text'],
  ])('does not build from %j: names %s', (input, field) => {
    expect(gs1ElementString.calculate(input)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/./) });
  });
});

it('every calculation answers its own example with inputs, explanation, source and cautions', () => {
  for (const calculation of gs1Calculations) {
    const answer = answered(calculation.calculate(calculation.example));
    expect(answer.inputs).toMatchObject(Object(calculation.example));
    expect([answer.explanation, answer.source].every((text) => text.length > 20) && answer.cautions.length > 0).toBe(true);
    expect(calculation.output.safeParse(answer).success).toBe(true);
  }
});
