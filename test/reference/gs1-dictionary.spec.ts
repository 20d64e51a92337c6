import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { aiEntries } from '@bakehouse/standards';
import { readDictionary, tableSource } from '../../libs/tooling/generators/gs1-table.js';
import { applicationIdentifiers } from '../../libs/standards/src/gs1/application-identifiers.js';

const root = path.resolve(import.meta.dirname, '../..');
const dictionary = path.join(root, '../shared/reference/gs1/gs1-syntax-dictionary.txt');
const there = existsSync(dictionary);
const generated = readFileSync(path.join(root, 'libs/standards/src/gs1/application-identifiers.ts'), 'utf8');

describe('the table of application identifiers', () => {
  it(
    there
      ? 'is what the GS1 Syntax Dictionary beside the project gives today'
      : 'NOT COMPARED with the GS1 Syntax Dictionary: its file is not there',
    () => {
      if (there) expect(generated).toBe(tableSource(readFileSync(dictionary, 'utf8')));
      else expect(applicationIdentifiers.length).toBeGreaterThan(200);
    },
  );

  it('reads each form of line that the dictionary’s own head describes', () => {
    const text = '# a comment\n\n01  *?  N14,csum,gcppos2  ex=255,37 dlpkey=22,10,21|235  # GTIN\n8110  ?  X..70,couponcode\n';
    expect(readDictionary(text).map((row) => [...row])).toEqual([
      ['01', '*?', 'N14,csum,gcppos2', 'ex=255,37 dlpkey=22,10,21|235', 'GTIN'],
      ['8110', '?', 'X..70,couponcode', '', ''],
    ]);
    expect(() => readDictionary('01 *? N14 nonsense=1 # GTIN')).toThrow('cannot read');
  });

  it('has the lengths, flags and sequences that the standard’s text gives', () => {
    // GS1 General Specifications, AIs 01, 10, 15, 310n, 37 and 421; Digital Link URI syntax for the sequences of 01.
    const facts = ['01', '10', '15', '3103', '37', '421'].map((ai) => {
      const entry = aiEntries.get(ai);
      return [ai, entry?.minLength, entry?.maxLength, entry?.predefined];
    });
    expect(facts).toEqual([
      ['01', 14, 14, true],
      ['10', 1, 20, false],
      ['15', 6, 6, true],
      ['3103', 6, 6, true],
      ['37', 1, 8, false],
      ['421', 4, 12, false],
    ]);
    expect(aiEntries.get('01')?.linkQualifiers).toEqual([['22', '10', '21'], ['235']]);
    expect(aiEntries.get('00')?.linkQualifiers).toEqual([[]]);
    expect(aiEntries.get('10')?.linkQualifiers).toBeUndefined();
  });

  it('no identifier begins another, so a scan can be cut in one way only', () => {
    const ais = [...aiEntries.keys()];
    expect(ais.filter((ai) => ais.some((other) => other !== ai && other.startsWith(ai)))).toEqual([]);
    expect(ais.length).toBe(new Set(ais).size);
  });
});
