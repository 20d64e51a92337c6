import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Hand } from '../support/hand.js';
import { doughBegun, madeUp } from './_made.js';
import { NightTable } from './_night.js';

let n: NightTable;
let lead: Hand;
const lot = '0190a6d0-7b3c-7000-8000-0000000051ee';
let make: string;
const runs: string[] = [];
beforeAll(async () => {
  n = await NightTable.open('02:00', { oiled: true });
  lead = new Hand(n.night.house, n.night.lead);
  const { oil } = n.night.materials;
  const came = { lot, material: oil, quantity: { figure: '5', unit: 'kg' as const }, asWritten: null, bestBefore: null, useBy: null };
  const lines = [{ ...came, code: 'OIL-7', codeState: 'on-it' as const, temperature: null }];
  await lead.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines });
  await lead.record('lot-opened', { station: n.night.mixer, material: oil, lot, beside: false });
  make = await doughBegun(n, lead, '2026-11-25');
  for (const pieces of [12, 10]) runs.push(await madeUp(n, lead, make, n.night.products.bloomer, pieces, '465'));
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

describe('what the formula puts on a product', () => {
  it('is asked for before it goes into the oven, and answered with one tap', async () => {
    await n.place('Today');
    await n.tap('Into the oven');
    await n.tap(/^Bloomer 400 g\s*12 waiting/);
    await n.tap('In it goes');
    await n.sheet().getByText('Rapeseed oil on Bloomer 400 g, OIL-7 is open').waitFor();
    await n.picture('what-is-on-it');
    await n.tap('Rapeseed oil on Bloomer 400 g: yes, OIL-7', n.sheet());
    await n.sheet().getByText('All of it is on record.').waitFor();
    await n.tap('In it goes', n.sheet());
    await n.heading('Bloomer 400 g × 12').waitFor();
    await n.page.getByText('all sent').waitFor();
    const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
    const on: { source: string; target: string }[] = body.rows.flow;
    expect(on.filter((f) => f.target === runs[0] && f.source === lot)).toHaveLength(1);
  });

  it('is said to be missing on the page of its batch, where it went in without, and asked for at its product', async () => {
    await n.place('Today');
    await n.tap('Into the oven');
    await n.tap(/^Bloomer 400 g\s*10 waiting/);
    await n.tap('In it goes');
    await n.tap('In it goes, say it later', n.sheet());
    await n.heading('Bloomer 400 g × 10').waitFor();
    const counted = { run: runs[1] ?? '', loads: [], pieces: 10, rejects: 0, code: 'BLO-2', bakedOn: '2026-11-25' };
    const batch = await lead.record('batch-counted-out', { ...counted, bestBefore: '2026-11-28', useBy: null });
    await n.page.getByText('all sent').waitFor();
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await n.page.goto(`/table/batch/${batch.id}`);
    await n.main().getByRole('heading', { name: 'Not on record' }).waitFor();
    await n.picture('not-on-record');
    await n.tap(/^Rapeseed oil, before/);
    await n.tap('Rapeseed oil on Bloomer 400 g: not on it');
    await n.main().getByText('by its formula, and not on record yet').waitFor({ state: 'detached' });
    await n.page.goto(`/table/batch/${batch.id}`);
    await n.heading('Bloomer 400 g × 10').waitFor();
    expect(await n.main().getByRole('heading', { name: 'Not on record' }).count()).toBe(0);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
