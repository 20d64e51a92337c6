import type { KindName, PayloadFor, SubjectType } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  await readings();
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

/** One load and its dough with readings in units that are not degrees Celsius, and cream that was read in Fahrenheit. */
type Reading = PayloadFor<'reading-taken'>;
async function readings(): Promise<void> {
  const { house, lead, products, materials, mixer } = n.night;
  const { body } = await lead.get(`/sites/${house.site}/night`).expect(200);
  const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>): Promise<string> => {
    const entry = house.entry({ kind, payload });
    const answer = await lead.post(`/sites/${house.site}/entries`, [entry]).expect(200);
    expect(answer.body).toMatchObject([{ as: 'recorded' }]);
    return entry.id;
  };
  const read = (
    subjectType: SubjectType,
    subject: string,
    measured: Reading['measured'],
    parameter: string,
    of: Partial<Reading>,
  ): Promise<string> =>
    record('reading-taken', {
      ...{ subjectType, subject, point: null, measured, parameter, instrument: null, value: null, yes: null, seconds: null },
      ...of,
    });
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  const make = await record('make-begun', { formulaVersion, station: mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null });
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const oven = String(body.rows.place.find((p: { name: string }) => p.name === 'Deck oven').id);
  const lines = [{ run, pieces: 20 }];
  const load = await record('load-in', { oven, deck: null, plan: null, bakeDay: '2026-11-25', setting: null, minutes: 30, lines });
  await read('make', make, 'elapsed', 'time in the bowl', { value: { figure: '42', unit: 'min' } });
  await read('make', make, 'mass', 'one piece', { value: { figure: '912', unit: 'g' } });
  await read('make', make, 'yes-no', 'windowpane', { yes: true });
  await read('load', load, 'ph', 'acidity', { value: { figure: '5.4', unit: 'pH' } });
  const cold = { figure: '46.4', unit: 'degF', measured: 'between-packs', point: null, instrument: null } as const;
  const line = {
    lot: uuidv7(n.clock.now()),
    material: materials.cream,
    quantity: null,
    asWritten: '2 × 1 l',
    code: 'C-1',
    codeState: 'on-it' as const,
  };
  const dates = { bestBefore: null, useBy: null };
  const oil = { ...line, lot: uuidv7(n.clock.now()), material: materials.oil, quantity: { figure: '10', unit: 'l' as const }, code: 'O-3' };
  const all = [
    { ...line, ...dates, temperature: cold },
    { ...oil, ...dates, temperature: null },
  ];
  await record('delivery-received', { supplier: null, noteNumber: 'DN 1', photo: null, unattended: false, lines: all });
}

const shown = async (text: string): Promise<void> => {
  await n.main().getByText(text).first().waitFor();
  expect(await n.main().textContent()).not.toMatch(/(5\.4|42|912|yes) °C/);
};

describe('a figure is shown in the unit that it was read in', () => {
  it('on the page of a load and of its dough', async () => {
    await n
      .main()
      .getByRole('link', { name: /White tin 800 g × 20/ })
      .click();
    await shown('acidity pH 5.4');
    await n.place('Today');
    await n
      .main()
      .getByText(/^Finished: /)
      .click();
    await n
      .main()
      .getByRole('link', { name: /^White dough/ })
      .click();
    for (const text of ['time in the bowl 42 min', 'one piece 912 g', 'windowpane yes']) await shown(text);
  });

  it('on the day’s sheet', async () => {
    await n.place('Today');
    await n.tap('The day’s sheet, to print');
    for (const text of ['acidity pH 5.4', '42 min', '912 g']) await shown(text);
  });

  it('to an officer', async () => {
    await n.place('Officer');
    await n
      .main()
      .getByText(/^Oven loads: /)
      .waitFor();
    await shown('pH 5.4');
  });

  it('in the list of what came in', async () => {
    await n.page.goto('/table/goods');
    await shown('46.4 °F between packs');
  });
});

describe('a count', () => {
  it('is in litres where the density of the material is known, and only there', async () => {
    await n.page.goto('/');
    await n.place('Send out');
    await n.tap('In stock');
    await n.tap(/Cream C-1.*: count/);
    await n.main().getByText('How much is there').waitFor();
    expect(await n.main().getByText('litres').count()).toBe(0);
    await n.tap('In stock');
    await n.tap(/Rapeseed oil O-3.*: count/);
    await n.main().getByText('9,150 g left').waitFor();
    await n.main().getByText('litres').click();
    await typeOnPad(n.page, '9.2');
    await n.picture('count-litres');
    await n.tap('Record the count');
    await n.main().getByText('Counted: 9.2 litres').waitFor();
    await n.main().getByText('732 g less than the records said.').waitFor();
    await n.page.getByText('all sent').waitFor();
    await n.night.house.again();
    const { body } = await n.night.house.administrator.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
    expect(body.rows.counted).toMatchObject([{ mg: 8_418_000 }]);
  });
});
