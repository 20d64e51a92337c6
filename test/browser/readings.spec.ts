import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, keepPicture, openBrowser, tabletPage, typeOnPad } from './_page.js';

let t: TestApp;
let browser: Browser;
let page: Page;

/** A fridge that is read twice a day for twelve days: usually about 3 °C, on one morning 9.4 °C, and nine evenings in a row a little warmer. */
const figures = (n: number): string => (n === 7 ? '9.4' : (n >= 14 ? 3.9 + (n % 2) / 10 : 2.8 + (n % 3) / 5).toFixed(1));

beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  const b = await Bakehouse.found(t);
  const probe = await b.probeInUse();
  for (let n = 0; n < 24; n += 1) {
    const day = `2026-11-${14 + Math.floor(n / 2)}`;
    const read = b.reading('chilled-in', 'place', b.place('fridge'), figures(n), { measured: 'between-packs', instrument: probe });
    await b.baker.record('reading-taken', read, { at: at(n % 2 === 0 ? '05:00' : '12:00', day) });
  }
  browser = await openBrowser();
  page = await tabletPage(browser, t);
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto('/office/readings');
  await page
    .locator('main')
    .getByRole('button', { name: /Lee Dehl/ })
    .click();
  await typeOnPad(page, b.lead.caller.pin);
  await page.locator('dialog').getByRole('button', { name: 'Go on' }).click();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const days = (): Promise<string[]> => page.getByRole('table', { name: 'Days' }).locator('tbody tr').allInnerTexts();
const says = 'Lowest 2.8 °C on Sat 14 Nov, highest 9.4 °C on Tue 17 Nov.';

describe('readings over time', () => {
  it('are found by what was read, and show at once what was outside its limit, when, and what is usual', async () => {
    const line = page.getByRole('row', { name: /^fridge/i });
    await line.waitFor();
    expect(await line.innerText()).toMatch(/24\s+1\s/);
    await keepPicture(page, 'readings-list');
    await line.click();
    await page.getByText('24 readings, 1 outside its limit.').waitFor();
    expect(await page.locator('.course-says').innerText()).toContain(says);
    const picture = page.getByRole('img', { name: /1 outside its limit/ });
    expect(await picture.locator('.course-point.bad').count()).toBe(1);
    expect(await picture.locator('.course-point.fine').count()).toBe(23);
    expect(await picture.locator('.course-limit path').count()).toBeGreaterThan(0);
    expect(await page.locator('main').innerText()).toMatch(/Usual is [^]*from 24 readings/);
    expect(await days()).toHaveLength(12);
    await keepPicture(page, 'readings-course');
  });

  it('name a pattern that chance seldom makes, and each of its rules can be turned off', async () => {
    const row = page.locator('.course-signals li', { hasText: 'in a row on one side of the centre' });
    expect(await row.count()).toBeGreaterThan(0);
    await page.getByRole('checkbox', { name: /in a row on one side/ }).uncheck();
    expect(await row.count()).toBe(0);
  });

  it('of fewer days say that they are too few for what is usual', async () => {
    await page.getByText('7 days', { exact: true }).click();
    await page.getByText(/fewer than 20 readings/).waitFor();
    expect(await page.locator('main').innerText()).toContain('14 readings.');
    expect(await days()).toHaveLength(7);
    await page.getByLabel('Up to').fill('2026-11-18');
    await page.getByText('10 readings, 1 outside its limit.').waitFor();
  });

  it('say what to do where nothing was read', async () => {
    await page.getByLabel('Up to').fill('2026-10-01');
    await page.getByText('Nothing was read here in these days.').waitFor();
  });
});
