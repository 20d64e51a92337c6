import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { Hand } from '../support/hand.js';
import { doughBegun, madeUp, placeNamed } from './_made.js';
import { NightTable } from './_night.js';

const bakeDay = '2026-11-25';
let n: NightTable;
let lead: Hand;
let [run, load] = ['', ''];
const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>): Promise<string> => (await lead.record(kind, payload)).id;

/** Twenty tins in one load, out of the oven. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay, offLine: true });
  lead = new Hand(n.night.house, n.night.lead);
  run = await madeUp(n, lead, await doughBegun(n, lead, bakeDay), n.night.products.tin, 20, '910');
  const oven = await placeNamed(n, 'Deck oven');
  load = await record('load-in', { oven, deck: null, plan: null, bakeDay, setting: null, minutes: 30, lines: [{ run, pieces: 20 }] });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const notice = (title: string) => n.main().locator('.notice', { hasText: title });
const twice = 'The same pieces seem to be counted out twice';
let code = '';
let other = '';

describe('twenty tins that two tablets count out', () => {
  it('are on hold under both codes, with who counted each and when', async () => {
    await n.context.setOffline(true);
    await n.page.goto(`/table/run/${run}/count`);
    await n.tap(/^Count out 20/);
    await n.heading('White tin 800 g × 20').waitFor();
    code = (await n.main().locator('p strong').first().textContent()) ?? '';
    expect(code).toMatch(/^6329-/);
    const dates = { bakedOn: bakeDay, bestBefore: '2026-11-28', useBy: null };
    other = await record('batch-counted-out', { run, loads: [load], pieces: 20, rejects: 0, code, ...dates });
    await n.context.setOffline(false);
    await notice(twice).waitFor();
    const said = (await notice(twice).textContent()) ?? '';
    expect(said).toMatch(/20 pieces, counted 05:\d\d by Tam Wick/);
    expect(said).toMatch(/20 pieces, counted 05:\d\d by Ines Pellow/);
    await n.main().getByText('It is on hold for this').waitFor();
    await n.picture('counted-twice');
  });

  it('get a code of their own where it was given before', async () => {
    await n.page.goto(`/table/batch/${other}`);
    await notice(`The code ${code} was given before`).getByText('by Tam Wick').waitFor();
    await n.picture('code-given-before');
    await n.tap(`Give this one the code ${code}-2`);
    await n
      .main()
      .locator('strong', { hasText: `${code}-2` })
      .first()
      .waitFor();
    expect(await notice('was given before').count()).toBe(0);
    await notice(twice).waitFor();
  });

  it('are one batch again once the other is taken back, from its page', async () => {
    await n.tap('Take this batch back');
    expect(await n.sheet().getByLabel('In a few words, if you like').inputValue()).toBe('counted out twice');
    await n.picture('take-back-counted-twice');
    await n.tap('Take it back', n.sheet());
    await n.heading('White tin 800 g × 20').waitFor();
    const rows = n.main().locator('section', { hasText: 'Counted out' }).locator('li');
    await rows.first().waitFor();
    await rows.nth(1).waitFor({ state: 'detached' });
    expect(await rows.count()).toBe(1);
    await rows.getByRole('link').click();
    await n.main().getByText('Code').first().waitFor();
    expect(await notice(twice).count()).toBe(0);
    expect(await n.main().getByText('It is on hold for this').count()).toBe(0);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
