import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import Papa from 'papaparse';
import { csvOf } from './csv';

const table = fc
  .integer({ min: 1, max: 5 })
  .chain((wide) =>
    fc.array(fc.array(fc.string({ unit: 'grapheme' }), { minLength: wide, maxLength: wide }), { minLength: 1, maxLength: 6 }),
  );
const read = (csv: string): string[][] => Papa.parse<string[]>(csv.slice(1), { delimiter: ',', newline: '\r\n' }).data;
/** What a cell says once it begins no formula. */
const asText = (cell: string): string => (/^[=+\-@\t\r\n＝＋－＠]/.test(cell) ? `'${cell}` : cell);

describe('a table as comma-separated values', () => {
  it('comes back as it was, but for an apostrophe before what a spreadsheet would take for a formula', () => {
    fc.assert(
      fc.property(table, ([heads = [], ...rows]) => {
        const sent = [heads, ...rows].map((row) => row.map(asText));
        const [back, rest] = [read(csvOf(heads, rows)).slice(0, sent.length), read(csvOf(heads, rows)).slice(sent.length)];
        expect(back).toEqual(sent);
        expect(rest.flat().join('')).toBe(''); // the end of the last line
      }),
    );
  });

  // The beginnings are those of OWASP’s page on CSV injection, from memory.
  it('has no cell that begins a formula, whatever follows', () => {
    const formula = fc
      .tuple(fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'), fc.string())
      .map((two) => two.join(''));
    fc.assert(
      fc.property(fc.array(formula, { minLength: 1, maxLength: 4 }), (cells) => {
        expect(read(csvOf(cells, [cells])).flat()).toEqual([...cells, ...cells].map((cell) => `'${cell}`));
      }),
    );
  });

  it('begins with the mark of its encoding', () => {
    expect(csvOf(['Näme'], [['a, b'], ['“c”']])).toBe('\ufeffNäme\r\n"a, b"\r\n“c”');
  });
});
