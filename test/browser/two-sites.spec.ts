import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { builtPages, openBrowser, tabletPage, typeOnPad } from './_page.js';

let t: TestApp;
let browser: Browser;
let page: Page;
let pin: string;
beforeAll(async () => {
  const web = builtPages();
  t = await startTestApp({ webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  const house = await House.found(t, [
    { name: 'Mill Lane', zone: 'Europe/London' },
    { name: 'Harbour Steps', zone: 'Europe/London' },
  ]);
  pin = (await house.join('Ines Pellow', ['manager'])).pin;
  browser = await openBrowser();
  page = await tabletPage(browser, t);
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

async function signOn(): Promise<void> {
  await page.getByRole('button', { name: /^Ines Pellow/ }).click();
  await typeOnPad(page, pin);
  await page.getByRole('button', { name: 'Go on' }).click();
}
async function leave(): Promise<void> {
  await page.locator('.strip').getByRole('button', { name: 'Ines Pellow' }).click();
  await page.getByRole('heading', { level: 1, name: /^Sign on/ }).waitFor();
}
const asked = () => page.getByRole('heading', { level: 1, name: 'At which site?' });
const at = (site: string) => page.locator('.strip').getByText(site, { exact: true });

describe('a device that holds nothing of a site yet', () => {
  it('does not say that nothing is open before it knows', async () => {
    let answer = (): void => undefined;
    const held = new Promise<void>((resolve) => {
      answer = resolve;
    });
    await page.route('**/night?*', async (route) => {
      await held;
      await route.continue();
    });
    await page.goto('/office');
    await signOn();
    await page.getByRole('button', { name: 'Mill Lane' }).click();
    await page.getByText('One moment…').waitFor();
    expect(await page.getByText('Nothing is open.').count()).toBe(0);
    answer();
    await page.getByText('Nothing is open.').waitFor();
    await leave();
    await page.unrouteAll();
  });
});

describe('the counter’s page of a browser that belongs to no site', () => {
  it('asks which shop it stands in, and shows that one', async () => {
    await page.goto('/counter');
    await page.getByRole('heading', { level: 1, name: 'Which shop is this?' }).waitFor();
    expect(await page.getByRole('group', { name: 'Shops' }).getByRole('link').allTextContents()).toEqual(
      expect.arrayContaining(['Mill Lane', 'Harbour Steps']),
    );
    await page.getByRole('link', { name: 'Harbour Steps' }).click();
    await page.getByText(/^Harbour Steps, /).waitFor();
    await page.getByText('Ask the baker').waitFor();
  });
});

describe('somebody who works at two sites', () => {
  it('says at which, instead of being put at the first by name', async () => {
    await page.goto('/office');
    await signOn();
    await asked().waitFor();
    expect(await page.getByRole('group', { name: 'Sites' }).getByRole('button').allTextContents()).toEqual(['Harbour Steps', 'Mill Lane']);
    await page.getByRole('button', { name: 'Mill Lane' }).click();
    await at('Mill Lane').waitFor();
    await page.getByRole('heading', { name: 'Food on hold: 0' }).waitFor();
    await page.getByText('No food is on hold.').waitFor();
  });

  it('is not asked again when the page is loaded again', async () => {
    await page.reload();
    await at('Mill Lane').waitFor();
    expect(await asked().count()).toBe(0);
  });

  it('is asked again after leaving, and can go to the other one', async () => {
    await leave();
    await signOn();
    await asked().waitFor();
    await page.getByRole('button', { name: 'Harbour Steps' }).click();
    await at('Harbour Steps').waitFor();
  });

  it('stays signed off although an answer about them comes only afterwards', async () => {
    let answer = (): void => undefined;
    const held = new Promise<void>((resolve) => {
      answer = resolve;
    });
    await page.route('**/api/v1/me', async (route) => {
      await held;
      await route.continue();
    });
    const question = page.waitForRequest(/\/me$/);
    await page.clock.fastForward(31_000);
    await question;
    await leave();
    const answered = page.waitForResponse(/\/me$/);
    answer();
    await (await answered).finished();
    await page.unrouteAll();
    await page.reload();
    await page.getByRole('heading', { level: 1, name: /^Sign on/ }).waitFor();
    expect(await page.locator('.strip .who').count()).toBe(0);
  });
});
