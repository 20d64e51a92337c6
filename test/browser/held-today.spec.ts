import { openThings } from '@bakehouse/contracts';
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

let n: NightTable;
let lead: Hand;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  lead = new Hand(n.night.house, n.night.lead);
  const flour = await delivered('F-7');
  await delivered('F-8');
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  const begun = { formulaVersion, station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: 20_000_000 };
  const { id: make } = await lead.record('make-begun', begun, { at: at('02:00') });
  const line = {
    material: n.night.materials.flour,
    lot: flour,
    quantity: { figure: '20000', unit: 'g' as const },
    how: 'weighed' as const,
  };
  await lead.record('weighed-in', { make, lines: [{ ...line, type: 'ingredient' }] }, { at: at('02:05') });
  // told late: it holds what was made of it by then, and opens no deviation that holds
  await lead.record('hold-placed', { lot: flour, deviation: null }, { at: at('05:00'), words: { because: 'mites' } });
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

async function delivered(code: string): Promise<string> {
  const lot = uuidv7(n.clock.now());
  const of = { lot, material: n.night.materials.flour, quantity: { figure: '50', unit: 'kg' as const }, asWritten: null };
  const line = { ...of, code, codeState: 'on-it' as const, bestBefore: null, useBy: null, temperature: null };
  const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] };
  await lead.record('delivery-received', payload, { at: at('01:00') });
  return lot;
}

it('Today has a row for each lot of the site on hold and no other, with its reason and a way to its page', async () => {
  const { held } = openThings.parse((await n.night.lead.get(`/sites/${n.night.house.site}/open`).expect(200)).body);
  expect(held).toHaveLength(2);
  await n.place('Today');
  const section = n
    .main()
    .locator('section')
    .filter({ has: n.page.getByRole('heading', { name: `Food on hold: ${held.length}` }) });
  await section.waitFor();
  const links = await section.getByRole('link').evaluateAll((all) => all.map((a) => a.getAttribute('href')));
  expect(links.sort()).toEqual(held.map((h) => `/office/lot/${h.lot}`).sort());
  expect(await section.getByText(/mites/).count()).toBe(2);
  // of fifty that came, twenty were weighed in
  expect(await section.getByRole('link', { name: /F-7/ }).textContent()).toContain('F-7, 30 kg: ');
  await n.picture('held-today');
  await section.getByRole('link', { name: /F-7/ }).click();
  await n.page.getByText(/On hold since/).waitFor();
});

it('folds all but the three newest away, and says how many: what is being made stands below', async () => {
  for (const code of ['F-9', 'F-10', 'F-11'])
    await lead.record(
      'hold-placed',
      { lot: await delivered(code), deviation: null },
      { at: at('05:10'), words: { because: 'a torn bag' } },
    );
  await n.page.goto('/table');
  const section = n.main().locator('section', { hasText: 'Food on hold: 5' });
  await section.waitFor();
  expect(await section.getByText('a torn bag').count()).toBe(3);
  expect(await section.getByText(/mites/).first().isVisible()).toBe(false);
  await section.getByText('2 more on hold').click();
  await section.getByRole('link', { name: /F-7/ }).waitFor();
  await n.picture('held-today-folded');
});
