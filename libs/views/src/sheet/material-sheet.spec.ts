import { describe, expect, it } from '@jest/globals';
import { kindNamed, plainName } from '@bakehouse/records';
import fc from 'fast-check';
import { materialColumns, materialSheet, type Had, type MaterialSheet } from './material-sheet.js';
import { partySheet } from './party-sheet.js';
import { letterOf, maxRows, type Grid } from './table.js';

const had: Had = { organisation: '0190a6d0-7b3c-7000-8000-000000000001', materials: [], suppliers: [], today: '2026-11-28' };
const read = (grid: Grid, of: Partial<Had> = {}): MaterialSheet => {
  const found = materialSheet(grid, { ...had, ...of });
  if (found.as === 'refused') throw new Error(found.says);
  return found;
};
const said = (grid: Grid): string[] => read(grid).wrong.map((w) => `${w.line} ${w.column}: ${w.says}`);

describe('a sheet of materials', () => {
  it('whatever stands in it: each line is offered, there already or wrong; what is offered the kind takes; nothing is thrown', () => {
    const heads = materialColumns.map((c) => c.headings[0]);
    const cell = fc.oneof(
      fc.constantFrom('', 'yes', 'wheat', 'none', 'label', '2026-11-20', '3', 'Flour', 'flour ', 'product'),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: heads.length, maxLength: heads.length }), { maxLength: 12 }), (rows) => {
        const { materials, existing, wrong } = read([heads, ...rows]);
        const lines = rows.flatMap((row, i) => (row.every((c) => c.trim() === '') ? [] : [i + 2]));
        const told = new Set([...materials, ...existing, ...wrong].map((x) => x.line));
        expect([...told].sort((a, b) => a - b)).toEqual(lines);
        for (const { entry, line } of materials) {
          expect(kindNamed('specification-accepted').payload.safeParse(entry.payload).success).toBe(true);
          expect(wrong.some((w) => w.line === line)).toBe(false);
        }
        expect(new Set(materials.map((m) => m.entry.payload.material)).size).toBe(materials.length);
        expect(new Set(materials.map((m) => plainName(m.name))).size).toBe(materials.length);
      }),
    );
  });

  it('once added, the same sheet adds nothing', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.string({ minLength: 1, maxLength: 30 }), { maxLength: 20 }), (names) => {
        const grid = [['Name'], ...names.map((n) => [n])];
        const first = read(grid).materials;
        const materials = first.map((m) => ({ material: m.entry.payload.material, name: m.entry.payload.name }));
        expect(read(grid, { materials }).materials).toEqual([]);
        const renamed = materials.map((m) => ({ ...m, name: `${m.name} (renamed since)` }));
        expect(read(grid, { materials: renamed }).materials).toEqual([]);
      }),
    );
  });

  it('what nobody checked is never none: no line without a check gives one, and “none” needs one', () => {
    const heads = ['Name', 'Contains', 'Checked against', 'Checked on'];
    expect(read([heads, ['Salt', '', '', '']]).materials[0]?.entry.payload.checked).toBeNull();
    expect(said([heads, ['Salt', 'none', '', '']])[0]).toMatch(/^2 B, “Contains”: “none” is taken only with what it was checked against/);
    expect(read([heads, ['Salt', 'none', 'label', '2026-11-20']]).materials[0]?.entry.payload).toMatchObject({
      contains: [],
      checked: { against: 'label', on: '2026-11-20' },
    });
    expect(said([heads, ['Salt', '', 'label', '']])[0]).toMatch(/^2 D, “Checked on”: the day of the check is needed/);
    expect(said([heads, ['Salt', '', '', '2026-11-20']])[0]).toMatch(/^2 C, “Checked against”: what it was checked against is needed/);
    expect(said([heads, ['Salt', '', 'label', '2026-11-29']])[0]).toMatch(/has not come yet/);
  });

  it.each([
    [
      'gluten, which names no single cereal',
      ['Name', 'Contains'],
      ['Flour', 'gluten'],
      '2 B, “Contains”: “gluten” names no single allergen',
    ],
    ['the same name twice', ['Name'], ['flour  x'], '3 A, “Name”: “flour  x” stands on line 2 already'],
    [
      'a product that claims allergens',
      ['Name', 'Type', 'Allergens'],
      ['Loaf', 'product', 'wheat'],
      '2 C, “Allergens”: nothing: what is made here',
    ],
    ['flour that is counted', ['Name', 'Flour', 'Reckoned'], ['Flour', 'yes', 'pieces'], '2 B, “Flour”: flour is weighed'],
    ['no name', ['Type', 'Name'], ['ingredient', ''], '2 B, “Name”: a name is needed'],
    [
      'a day that no month has',
      ['Name', 'Checked against', 'Checked on'],
      ['Salt', 'label', '2026-02-30'],
      '2 C, “Checked on”: “2026-02-30” is not a day',
    ],
    ['a density in kilograms', ['Name', 'Density'], ['Oil', '915'], '2 B, “Density”: “915” is not a density'],
  ])('%s is named by line and column', (what, heads, row, says) => {
    const rows = what === 'the same name twice' ? [['Flour x'], row] : [row];
    expect(said([heads, ...rows])[0]).toContain(says);
  });

  it('a supplier that the house does not have comes first, once; one that it has is meant by its name', () => {
    const grid = [
      ['Ingredient', 'Supplier'],
      ['Flour', 'Test Mill'],
      ['Rye', 'test  mill'],
    ];
    const { suppliers, materials } = read(grid);
    expect(suppliers.map((s) => s.name)).toEqual(['Test Mill']);
    expect(new Set(materials.map((m) => m.entry.payload.supplier))).toEqual(new Set([suppliers[0]?.entry.payload.party]));
    const known = read(grid, { suppliers: [{ party: '0190a6d0-7b3c-7000-8000-000000000009', name: 'TEST MILL' }] });
    expect(known.suppliers).toEqual([]);
    expect(known.materials[0]?.entry.payload.supplier).toBe('0190a6d0-7b3c-7000-8000-000000000009');
  });

  it('without a column of names, with one twice or with too many lines it is refused with what to do', () => {
    expect(materialSheet([['Colour'], ['red']], had)).toMatchObject({ as: 'refused', says: expect.stringContaining('“Name” among them') });
    expect(materialSheet([], had)).toMatchObject({ as: 'refused' });
    expect(
      materialSheet(
        [
          ['Name', 'Material'],
          ['a', 'b'],
        ],
        had,
      ),
    ).toMatchObject({ as: 'refused', says: expect.stringContaining('Two columns') });
    const many = Array.from({ length: maxRows + 1 }, (_, i) => [`M${i}`]);
    expect(materialSheet([['Name'], ...many], had)).toMatchObject({ as: 'refused', says: expect.stringContaining('at most 5000') });
    expect(read([[''], ['Name', 'Colour'], [''], ['Salt', 'white']])).toMatchObject({
      materials: [{ line: 4, name: 'Salt' }],
      leftOut: ['Colour'],
    });
  });
});

describe('a sheet of suppliers and customers', () => {
  it('takes names and numbers as words, and adds nothing twice', () => {
    const grid = [
      ['Name', 'Type', 'Telephone', 'Vulnerable'],
      ['Test Mill', '', '01632 960 001', ''],
      ['Test School', 'customer', '', 'yes'],
      ['Somebody', 'friend', '', ''],
    ];
    const found = partySheet(grid, { organisation: had.organisation, parties: [] });
    if (found.as === 'refused') throw new Error(found.says);
    expect(found.parties.map((p) => [p.entry.payload.type, p.entry.payload.vulnerable, p.entry.words])).toEqual([
      ['supplier', false, { name: 'Test Mill', phone: '01632 960 001' }],
      ['customer', true, { name: 'Test School' }],
    ]);
    expect(found.wrong).toEqual([
      { line: 4, column: 'B, “Type”', says: expect.stringContaining('“friend” is none of these: supplier, customer') },
    ]);
    const parties = found.parties.map((p) => ({ party: p.entry.payload.party, name: p.name }));
    expect(partySheet(grid, { organisation: had.organisation, parties })).toMatchObject({
      parties: [],
      existing: [{ line: 2 }, { line: 3 }],
    });
  });
});

describe('letters of columns', () => {
  it.each([
    [0, 'A'],
    [25, 'Z'],
    [26, 'AA'],
    [701, 'ZZ'],
    [702, 'AAA'],
  ])('%i is %s', (i, letter) => expect(letterOf(i)).toBe(letter));
});
