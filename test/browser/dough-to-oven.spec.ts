import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { retypeOnPad, typeOnPad } from './_page.js';

let n: NightTable;
let half: string;
let runs: string[];
beforeAll(async () => {
  n = await NightTable.open('04:20');
  const lead = new Hand(n.night.house, n.night.lead);
  const { formulaVersion, controlPoint } = await rows();
  const of = {
    formulaVersion: String(formulaVersion?.[0]?.['id']),
    station: n.night.mixer,
    plan: String(controlPoint?.[0]?.['plan']),
    bakeDay: '2026-11-25',
  };
  half = (await lead.record('make-begun', { ...of, plannedMg: 20_725_000 })).id;
  const other = (time: string) => lead.record('make-begun', { ...of, plannedMg: null }, { at: at(time) });
  runs = [uuidv7(n.clock.now()), uuidv7(new Date(n.clock.now().getTime() + 1))];
  for (const [i, make] of [await other('02:35'), await other('03:10')].entries()) {
    const line = {
      run: String(runs[i]),
      product: n.night.products.tin,
      heads: null,
      pieces: 10,
      scaling: { figure: '910', unit: 'g' as const },
    };
    await lead.record('divided', { make: make.id, quantity: null, oldDough: null, scrap: null, runs: [line] });
  }
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const rows = async (): Promise<Record<string, Record<string, unknown>[]>> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;
const cell = (name: string) => n.main().getByRole('button', { name });

describe('half a dough', () => {
  it('has its dough temperature judged while it is typed, as every pad does', async () => {
    await n.page.goto(`/table/make/${half}/mixed`);
    await typeOnPad(n.page, '28.5');
    await n.main().locator('.preview').getByText('too high').waitFor();
    expect(await n.main().locator('.preview .mark').first().getAttribute('class')).toContain('ask'); // red is for critical limits
    await n.picture('mixed-preview');
    expect((await rows())['reading']).toEqual([]);
  });

  it('becomes half the pieces of each product, and one that the formula does not name may be added', async () => {
    await n.page.goto(`/table/make/${half}/make-up`);
    await cell('White tin 800 g: pieces, 10').waitFor(); // 20, 12 and 216 in a whole one
    await cell('Bloomer 400 g: pieces, 6').waitFor();
    await cell('Bap: pieces, 108').waitFor();
    await n.tap('Another product');
    await n.sheet().getByText('Every product that is set up stands there already.').waitFor();
    await n.sheet().getByRole('button', { name: 'Close' }).click();
    await n.picture('half-made-up');
  });
});

describe('into the oven', () => {
  it('two that are called the same are told apart by dough and time, and the next goes where the product went last', async () => {
    await n.page.goto('/table/load/new');
    const tiles = n.main().getByRole('button', { name: /^White tin 800 g 10 waiting/ });
    await tiles.first().waitFor();
    expect(await tiles.allTextContents()).toEqual([
      expect.stringContaining('White dough, begun 02:35'),
      expect.stringContaining('White dough, begun 03:10'),
    ]);
    await n.main().getByText('Bottom deck', { exact: true }).click();
    await tiles.first().click();
    await n.tap('In it goes');
    await n.sheet().getByRole('button', { name: 'Use it all the same' }).click(); // nothing was weighed in
    await n.page.getByText('So far').waitFor();
    await n.tap('Take out');
    await n.tap('It is so, take it out', n.sheet()); // it has only just gone in
    await n
      .main()
      .getByText(/· out /)
      .waitFor();
    await n.page.goto('/table/load/new');
    await n
      .main()
      .getByRole('button', { name: /^White tin 800 g 10 waiting/ })
      .click();
    await n.main().getByRole('radio', { name: 'Bottom deck', checked: true }).waitFor();
    await n.picture('load-new');
  });
});

describe('counting out', () => {
  it('more than went in stops with the sum, and nothing is recorded until somebody says that it is so', async () => {
    await n.page.goto(`/table/run/${runs[0]}/count`);
    await retypeOnPad(n.page, '12');
    await n.tap('Count out 12');
    await n.sheet().getByText('10 went into the oven; this says 12.').waitFor();
    await n.picture('count-too-many');
    await n.sheet().getByRole('button', { name: 'Change it' }).click();
    expect((await rows())['batch']).toEqual([]);
    await n.tap('Count out 12');
    await n.sheet().getByRole('button', { name: 'It is so, count them out' }).click();
    await n.heading('White tin 800 g × 12').waitFor();
  });

  it('fits under a finger', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
