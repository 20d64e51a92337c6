import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, keepPicture, tabletPage, typeOnPad } from './_page.js';

let t: TestApp;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  const b = await Bakehouse.found(t);
  await nutsWeek(b);
  browser = await openBrowser();
  page = await tabletPage(browser, t);
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto('/office');
  await page
    .locator('main')
    .getByRole('button', { name: /Lee Dehl/ })
    .click();
  await typeOnPad(page, b.lead.caller.pin);
  await page.locator('dialog').getByRole('button', { name: 'Go on' }).click();
  await page.getByLabel('A lot code, or a name').fill('a77');
  await page.keyboard.press('Enter');
  await title('ground almond, lot A77').waitFor();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const title = (text: string | RegExp) => page.getByRole('heading', { level: 1, name: text });
const ends = (): Promise<{ id: string; text: string; look: string }[]> =>
  page
    .locator('tr[data-end]')
    .evaluateAll((rows) => rows.map((row) => ({ id: row.getAttribute('data-end') ?? '', text: row.textContent, look: row.className })));
const bandsTo = (): Promise<{ to: string; look: string }[]> =>
  page
    .locator('path[data-to]')
    .evaluateAll((bands) => bands.map((band) => ({ to: band.getAttribute('data-to') ?? '', look: band.getAttribute('class') ?? '' })));

describe('the picture of where a lot went', () => {
  it('ends in its table: each line of it has a band', async () => {
    const [lines, bands] = [await ends(), await bandsTo()];
    expect(lines.length).toBeGreaterThan(5);
    const reached = new Set(bands.map((band) => band.to));
    expect(lines.filter((line) => !reached.has(line.id)).map((line) => line.text)).toEqual([]);
    await keepPicture(page, 'lot');
  });

  it('orders nothing off a counter, and asks for nobody to be told, of a lot that is on hold nowhere and in no case', async () => {
    expect(await page.locator('main').textContent()).not.toMatch(/take (it|them) off|not told/);
  });

  it('is an image that the table describes, and says what its bands mean in words', async () => {
    const image = page.getByRole('img', { name: /A77/ });
    const table = await image.getAttribute('aria-describedby');
    expect(await page.locator(`[id="${table ?? ''}"] tbody tr`).count()).toBe((await ends()).length);
    await page.getByText('certain', { exact: true }).first().waitFor();
    await page.getByText(/^Width is /).waitFor();
  });

  it('has lots that a keyboard reaches, and opens', async () => {
    const [first] = await page.locator('a.flow-lot').all();
    const name = (await first?.getAttribute('href')) ?? '';
    await page.locator('.flow-scroll').focus();
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('href'))).toBe(name);
    await page.keyboard.press('Enter');
    await page.waitForURL(`**${name}`);
    await page.goBack();
    await title('ground almond, lot A77').waitFor();
  });

  it.each([1440, 1024, 800, 320])('fits a screen of %i px', async (width) => {
    await page.setViewportSize({ width, height: 900 });
    await page.locator('tr[data-end]').first().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    await keepPicture(page, `lot-${width}`, { fullPage: false });
  });
});
