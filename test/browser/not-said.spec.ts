import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Hand } from '../support/hand.js';
import { doughBegun, madeUp } from './_made.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

const bakeDay = '2026-11-25';
const notSaid = 'Bap: contains or may contain milk by what was used, which its formula does not say';
let n: NightTable;
let lead: Hand;
let [plain, creamy] = ['', ''];
const batchOf = async (make: string, code: string): Promise<string> => {
  const run = await madeUp(n, lead, make, n.night.products.bap, 20, '75');
  const dates = { bakedOn: bakeDay, bestBefore: '2026-11-28', useBy: null };
  return (await lead.record('batch-counted-out', { run, loads: [], pieces: 20, rejects: 0, code, ...dates })).id;
};

/** Twenty baps by their formula, and twenty of a dough that cream went into instead of the water. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay, offLine: true });
  lead = new Hand(n.night.house, n.night.lead);
  plain = await batchOf(await doughBegun(n, lead, bakeDay), 'AS-SAID');
  const make = await doughBegun(n, lead, bakeDay);
  await lead.record('one-off-changed', { make, material: n.night.materials.water, instead: n.night.materials.cream });
  creamy = await batchOf(make, 'WITH-CREAM');
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const notice = () => n.main().locator('.notice', { hasText: 'It contains what its product does not say' });

describe('a batch that contains what its formula does not say', () => {
  it('says so on its page, with what to do, and the one beside it says nothing', async () => {
    await n.page.goto(`/table/batch/${creamy}`);
    await notice().getByText(`${notSaid}. Do not release it or send it out under its usual label`).waitFor();
    await n.picture('not-said-batch');
    const answered = n.page.waitForResponse((r) => r.url().includes('/contents?') && r.ok());
    await n.page.goto(`/table/batch/${plain}`);
    await answered;
    await n.heading('Bap × 20').waitFor();
    expect(await notice().count()).toBe(0);
  });

  it('is never shown by its formula before what was used has come', async () => {
    let answer = (): void => undefined;
    const held = new Promise<void>((go) => (answer = go));
    await n.page.route('**/contents?*', async (route) => {
      await held;
      await route.continue();
    });
    await n.page.goto(`/office/lot/${creamy}`);
    const facts = n.main().locator('.facts');
    await facts.getByText('being worked out').waitFor();
    expect(await facts.textContent()).not.toContain('by formula');
    answer();
    await facts.getByText(/Contains .*milk/i).waitFor();
    expect(await facts.textContent()).not.toContain('by formula');
    await n.picture('not-said-lot');
    await n.page.unroute('**/contents?*');
  });

  it('asks once more before it goes on the counter, where it goes after a deliberate step alone', async () => {
    await n.page.goto('/table/out/counter');
    await n.main().getByText('contains wheat, milk').first().waitFor();
    const putOn = n.main().getByRole('button', { name: 'Bap, WITH-CREAM: on the counter' });
    await putOn.click();
    await n.sheet().getByText(notSaid).waitFor();
    await n.picture('not-said-counter');
    await n.tap('Do not use it', n.sheet());
    await n.sheet().waitFor({ state: 'detached' });
    await putOn.click();
    await n.tap('Use it all the same', n.sheet());
    await n.sheet().getByText('How many go on?').waitFor();
  });

  it('asks once more before it is sent out', async () => {
    await n.page.goto('/table/out/send/stall');
    await n.main().getByText('contains wheat, milk').first().waitFor();
    await n.main().getByRole('button', { name: /^Bap/ }).click();
    await typeOnPad(n.page, '5');
    await n.tap('Done', n.sheet());
    await n.tap('Record it');
    await n.sheet().getByText(notSaid).waitFor();
    await n.picture('not-said-send');
    await n.tap('Do not use it', n.sheet());
    await n.sheet().waitFor({ state: 'detached' });
    await n.main().getByRole('button', { name: 'Record it' }).waitFor();
  });

  it('is not called free of anything where the service cannot be asked', async () => {
    await n.context.setOffline(true);
    await n.page.goto('/table/out/counter');
    await n.main().getByText('what it contains is not known here').waitFor();
    expect(await n.main().getByText('nothing else of the list').count()).toBe(0);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
