import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, tabletPage, typeOnPad } from './_page.js';

/** A flour of one site that the other baked with as well, and sold some of to a café; somebody of the first site looks at it. */
let t: TestApp;
let b: Bakehouse;
let browser: Browser;
let page: Page;
let flour: string;
let twin: string;
const recall = { id: '' };
beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
  flour = await b.delivered('flour', at('00:10'), { code: '44-71' });
  twin = await b.delivered('flour', at('00:11'), { code: '4471' });
  const there = new Hand(b.house, b.lead.caller, b.house.created.sites[1] ?? '');
  const begun = { formulaVersion: b.formula('white'), station: null, plan: b.plan, bakeDay: '2026-11-25', plannedMg: null };
  const make = (await there.record('make-begun', begun, { at: at('00:20') })).id;
  await there.record('weighed-in', { make, lines: [b.into('flour', '5600', flour)] }, { at: at('00:21') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
  await there.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('00:30') });
  const counted = { run, loads: [], pieces: 12, rejects: 0, code: 'ST-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
  const batch = (await there.record('batch-counted-out', counted, { at: at('00:40') })).id;
  const line = { lots: [batch], quantity: pieces(3), how: 'counted' as const };
  const trip = { channel: 'dispatch' as const, customer: b.party('cafeA'), unattended: false, until: null, lines: [line] };
  await there.record('sent-out', trip, { at: at('00:50') });
  recall.id = b.newId();
  const of = { id: recall.id, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
  await b.lead.caller.post('/recalls', of).expect(200);
  const { pin } = await b.house.join('Hera Lee', ['food-safety-lead', 'manager'], b.site);
  browser = await openBrowser();
  page = await tabletPage(browser, t);
  await page.goto('/office');
  await page.getByRole('button', { name: /^Hera Lee/ }).click();
  await typeOnPad(page, pin);
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('heading', { level: 1, name: 'Office' }).waitFor();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const main = () => page.locator('main');
const buttons = (name: RegExp) => main().getByRole('button', { name });

describe('what somebody of one site sees of a case of the house', () => {
  it('says first that it is a part, where the rest is and whom to ask; nothing in it says that nobody has any, and nothing of it is printed', async () => {
    await page.goto(`/office/recalls/${recall.id}`);
    await main().getByText('You see only a part of it: this list is not complete').first().waitFor();
    const text = (await main().innerText()).replaceAll(/\s+/g, ' ');
    expect(text).toContain('Harbour Steps: 3 more lots that you may not look at. Ask the manager of that site.');
    expect(text.indexOf('You see only a part')).toBeLessThan(text.indexOf('This is real'));
    for (const whole of [
      'are informed',
      'nobody outside the house',
      'none of it has left',
      'Nothing was made',
      'Everything else that was reached',
    ])
      expect([whole, text.includes(whole)]).toEqual([whole, false]);
    expect(await buttons(/^Print/).count()).toBe(0);
    await page.emulateMedia({ media: 'print' });
    expect(
      await main()
        .getByRole('heading', { level: 2, name: /contact list/ })
        .isVisible(),
    ).toBe(false);
    expect(await main().getByText('You see only a part of it').first().isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
  });

  it('says the same of the lot', async () => {
    await page.goto(`/office/lot/${flour}`);
    await main().getByText('You see only a part of it: this list is not complete').waitFor();
    const text = (await main().innerText()).replaceAll(/\s+/g, ' ');
    expect(text).toContain('to contact that you may see, of more');
    expect(text).not.toContain('nobody outside the house');
    expect(await buttons(/^Print/).count()).toBe(0);
  });
});

describe('a lot with the code of another', () => {
  it('names it with a link, and a case about it begins with both; one is taken off with a reason', async () => {
    await page.goto(`/office/lot/${flour}`);
    await main()
      .getByRole('link', { name: /white flour.*, lot 4471, came/i })
      .waitFor();
    await main().getByRole('link', { name: 'Open a recall' }).click();
    const other = main().getByRole('checkbox', { name: /lot 4471, came/ });
    await other.waitFor();
    expect(await other.isChecked()).toBe(true);
    await main().getByText('Added to that: 1 of the same code and all that came of it').waitFor();
    await main()
      .getByRole('radio', { name: /glass|physical|foreign/i })
      .first()
      .check();
    await main().getByLabel('In a word: what was found, or is feared').fill('glass');
    await main().getByRole('radio', { name: 'It is a practice' }).check();
    await buttons(/^Open the practice$/)
      .and(page.locator(':enabled'))
      .waitFor();
    await other.uncheck();
    await main().getByText('Say why a lot of the same code is left out.').waitFor();
    expect(await buttons(/^Open the practice$/).isDisabled()).toBe(true);
    await other.check();
    expect(await buttons(/^Open the practice$/).isDisabled()).toBe(false);
    expect((await b.lead.caller.get(`/lots/${flour}/trace`).expect(200)).body.alike.map((l: { lot: string }) => l.lot)).toEqual([twin]);
  });

  it('is put on hold with it, where the tick beside it is seen and left', async () => {
    await page.goto(`/office/lot/${flour}`);
    await buttons(/^Put on hold: /).click();
    const sheet = page.getByRole('dialog');
    const tick = sheet.getByRole('checkbox', { name: /lot 4471, came/ });
    const seen = await tick.evaluate((e) => [
      getComputedStyle(e).opacity,
      e.getBoundingClientRect().width >= 24,
      (e.parentElement?.clientHeight ?? 0) >= 44,
    ]);
    expect([await tick.isChecked(), ...seen]).toEqual([true, '1', true, true]);
    await sheet.getByLabel('Why').fill('a smell');
    await sheet.getByRole('button', { name: 'Put it on hold' }).click();
    await sheet.waitFor({ state: 'detached' });
    await page.getByText('all sent').waitFor();
    const { body } = await b.lead.caller.get(`/sites/${b.site}/open`).expect(200);
    const byHand = body.held.filter((h: { concerns: { type: string }[] }) => h.concerns.some((c) => c.type === 'held'));
    expect(byHand.map((h: { lot: string }) => h.lot)).toEqual(expect.arrayContaining([flour, twin]));
  });
});
