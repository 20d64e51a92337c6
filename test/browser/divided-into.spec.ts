import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

let n: NightTable;
let lead: Hand;
let make: string;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  lead = new Hand(n.night.house, n.night.lead);
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  const begun = { formulaVersion, station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: 20_000_000 };
  make = (await lead.record('make-begun', begun)).id;
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const dates = { bakedOn: '2026-11-25', bestBefore: '2026-11-28', useBy: null };
  const { id: batch } = await lead.record('batch-counted-out', { run, loads: [], pieces: 20, rejects: 0, code: 'T-1', ...dates });
  await lead.record('released-by-exception', { batch }, { words: { why: 'no core was read' } });
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

it('the head of its page names the batches, what is left of each and how it stands', async () => {
  await n.page.goto(`/office/lot/${make}`);
  const parts = n.page.getByRole('list', { name: 'What it was divided into' });
  await parts.getByText(/T-1: 20 pieces left of 20 pieces/).waitFor();
  expect(await n.page.getByText('By the records none of it is left', { exact: true }).count()).toBe(0);
  await lead.record('hold-placed', { lot: make, deviation: null }, { words: { because: 'mites' } });
  await n.page.reload();
  await n.page.getByText('What is left of it is on hold.').waitFor();
  await parts.getByText(/T-1: 20 pieces left of 20 pieces, on hold/).waitFor();
  await n.picture('divided-into');
});
