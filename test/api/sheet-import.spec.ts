import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { materialSheet, type MaterialSheet } from '@bakehouse/views';
import writeExcelFile from 'write-excel-file/node';
import { sheetOf } from '../../apps/web/src/features/setup/sheet-file.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';

let t: TestApp;
let house: House;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
});
afterAll(() => t.close());

type Cells = readonly (readonly string[])[];
const heads = ['Name', 'Flour', 'Contains', 'Checked against', 'Checked on', 'Days it keeps', 'Supplier'];
/** 200 materials, of which seven lines are wrong, each in its own way. */
const wrong: Readonly<Record<number, readonly string[]>> = {
  12: ['Malt', '', 'gluten', '', '', '', ''],
  40: ['', 'yes', 'wheat', '', '', '', ''],
  77: ['Poppy seed', '', 'none', '', '', '', ''],
  101: ['Sultanas', '', '', 'label', '', '', ''],
  150: ['Raisins', 'perhaps', '', '', '', '', ''],
  180: ['Treacle', '', '', '', '', 'a year', ''],
  201: ['material 3', '', '', '', '', '', ''],
};
const rows: Cells = [
  heads,
  ...Array.from(
    { length: 200 },
    (_, i) =>
      wrong[i + 2] ?? [
        `Material ${i + 1}`,
        i === 0 ? 'yes' : '',
        i % 2 === 0 ? 'wheat, milk' : '',
        i % 2 === 0 ? 'label' : '',
        i % 2 === 0 ? '2026-11-20' : '',
        '90',
        'Test Mill',
      ],
  ),
];
const csv = (of: Cells, comma = ','): Blob => new Blob([of.map((row) => row.map((c) => `"${c}"`).join(comma)).join('\r\n')]);
async function workbook(of: readonly (readonly object[])[]): Promise<Blob> {
  const bytes = await writeExcelFile(of.map((row) => [...row])).toBuffer();
  return new Blob([new Uint8Array(bytes)]);
}
const texts = (of: Cells) => of.map((row) => row.map((value) => ({ value, type: String })));

/** What a person sees before they confirm: the sheet against the lists as the service gives them now. */
async function preview(file: Blob, by: Caller = house.administrator): Promise<MaterialSheet> {
  const read = await sheetOf(file);
  if (read.as === 'refused') throw new Error(read.says);
  const materials = (await by.get('/catalogue/materials').expect(200)).body;
  const { parties } = (await by.get('/catalogue/parties').expect(200)).body;
  const found = materialSheet(read.grid, { organisation: house.organisation, materials, suppliers: parties, today: '2026-11-25' });
  if (found.as === 'refused') throw new Error(found.says);
  return found;
}
async function confirm({ suppliers, materials }: MaterialSheet, by: Caller): Promise<{ as: string; problem?: string }[]> {
  const entries = [...suppliers, ...materials].map((o) =>
    house.rawEntry({ kind: o.entry.kind, payload: o.entry.payload, words: o.entry.words ?? {} }),
  );
  const answers: { as: string }[] = [];
  for (let from = 0; from < entries.length; from += 50)
    answers.push(...(await by.post('/organisation/entries', entries.slice(from, from + 50)).expect(200)).body);
  return answers;
}
const count = async (): Promise<number> => (await house.administrator.get('/catalogue/materials').expect(200)).body.length as number;

describe('200 materials from a sheet, seven lines of it wrong', () => {
  it('offers 193, names seven by line and column, and writes nothing', async () => {
    const found = await preview(csv(rows));
    expect(found.materials).toHaveLength(193);
    expect(found.wrong.map((w) => [w.line, w.column])).toEqual([
      [12, 'C, “Contains”'],
      [40, 'A, “Name”'],
      [77, 'C, “Contains”'],
      [101, 'E, “Checked on”'],
      [150, 'B, “Flour”'],
      [180, 'F, “Days it keeps”'],
      [201, 'A, “Name”'],
    ]);
    expect(await count()).toBe(0);
  });

  it('adds nothing for somebody who may not', async () => {
    const baker = await house.signedOn('Bea Kerr', ['baker']);
    const answers = await confirm(await preview(csv(rows), baker), baker);
    expect(new Set(answers.map((a) => `${a.as} ${a.problem}`))).toEqual(new Set(['refused not-permitted']));
    expect(await count()).toBe(0);
  });

  it('has 193 in the catalogue once it is confirmed, with their supplier, and what nobody checked is not known', async () => {
    const answers = await confirm(await preview(csv(rows)), house.administrator);
    expect(new Set(answers.map((a) => a.as))).toEqual(new Set(['recorded']));
    const { body } = await house.administrator.get('/catalogue/materials').expect(200);
    expect(body).toHaveLength(193);
    const called = (name: string) => body.find((m: { name: string }) => m.name === name);
    expect(called('Material 1').allergens).toMatchObject({ contains: ['wheat', 'milk'], notKnown: [], checkedSince: '2026-11-20' });
    expect(called('Material 2').allergens).toMatchObject({ contains: [], notKnown: ['Material 2'], checkedSince: null });
    expect(called('Material 2').specifications[0]).toMatchObject({ supplierName: 'Test Mill', lifeDays: 90 });
  });

  it('adds none from the same sheet again, as a workbook or with semicolons either', async () => {
    for (const file of [csv(rows), csv(rows, ';'), await workbook(texts(rows))]) {
      const found = await preview(file);
      expect([found.suppliers.length, found.materials.length, found.existing.length]).toEqual([0, 0, 194]); // “material 3” on the last line is there by now
    }
    expect(await count()).toBe(193);
  });

  it('two people with the same sheet add each material once', async () => {
    const file = csv([['Name'], ['Barm'], ['Lard']]);
    const [one, other] = [await preview(file), await preview(file)];
    await confirm(one, house.administrator);
    await confirm(other, house.administrator);
    expect(await count()).toBe(195);
  });
});

describe('a file', () => {
  it('of a workbook is read with its days and figures as they are written, and a formula as text', async () => {
    const day = { value: new Date('2026-11-20T00:00:00Z'), type: Date, format: 'yyyy-mm-dd' };
    const file = await workbook([
      ...texts([['Name', 'Checked against', 'Checked on', 'Days it keeps', 'Contains']]),
      [
        { value: '=1+1', type: String },
        { value: 'label', type: String },
        day,
        { value: 30, type: Number },
        { value: 'milk', type: String },
      ],
    ]);
    const found = await preview(file);
    expect(found.wrong).toEqual([]);
    expect(found.materials[0]).toMatchObject({
      name: '=1+1',
      entry: { payload: { checked: { against: 'label', on: '2026-11-20' }, lifeDays: 30 } },
    });
  });

  it('of an older machine is read with its letters', async () => {
    const file = new Blob([new Uint8Array([...Buffer.from('Name\r\n'), ...[0x43, 0x72, 0xe8, 0x6d, 0x65]])]);
    expect((await preview(file)).materials.map((m) => m.name)).toEqual(['Crème']);
  });

  it.each<[string, () => Blob, RegExp]>([
    ['a picture', () => new Blob([new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d])]), /save it as \.xlsx or as CSV/],
    ['a paper', () => new Blob(['%PDF-1.7']), /save it as \.xlsx or as CSV/],
    ['an old workbook', () => new Blob([new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1])]), /old form \(\.xls\)/],
    ['a damaged workbook', () => new Blob([new Uint8Array([0x50, 0x4b, 0x03, 0x04, 1, 2, 3])]), /damaged|no sheet/],
    ['nothing', () => new Blob([]), /is empty/],
    ['more than 5 MB', () => new Blob([new Uint8Array(5 * 1024 * 1024 + 1)]), /larger than 5 MB/],
    ['6,000 lines', () => csv(Array.from({ length: 6_000 }, (_, i) => [`M${i}`])), /at most 5000/],
    ['a quotation mark left open', () => new Blob(['Name,Type\n"Flour,ingredient\n']), /quotation mark/],
  ])('that is %s is refused with what to do', async (_what, file, says) => {
    expect(await sheetOf(file())).toMatchObject({ as: 'refused', says: expect.stringMatching(says) });
  });
});
