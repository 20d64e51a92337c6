import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { builtPages, openBrowser, keepPicture, tabletPage, typeOnPad } from './_page.js';

let t: TestApp;
let pin: string;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  t = await startTestApp({ webFolder: builtPages(), env: { TRUST_PROXY: '1' } });
  await t.app.listen(0, '127.0.0.1');
  const house = await House.found(t);
  ({ pin } = await house.join('Ines Pellow', ['manager']));
  browser = await openBrowser();
  page = await tabletPage(browser, t, { 'x-forwarded-for': '203.0.113.7' });
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

describe('a device that nobody signed on at before', () => {
  it('shows no name; one types one’s own, and from then on it is there to tap', async () => {
    await page.goto('/office');
    await page.getByRole('button', { name: 'Type my name' }).waitFor();
    expect(await page.getByText('Ines Pellow').count()).toBe(0);
    await keepPicture(page, 'no-names', { fullPage: false });
    await page.getByRole('button', { name: 'Type my name' }).click();
    await page.getByLabel(/^Your whole name/).fill('ines pellow');
    await keepPicture(page, 'own-name', { fullPage: false });
    await page.getByRole('button', { name: 'Go on' }).click();
    await page.getByRole('heading', { name: 'ines pellow' }).waitFor();
    await typeOnPad(page, pin);
    await page.getByRole('button', { name: 'Go on' }).click();
    await page.locator('.strip').getByRole('button', { name: 'Ines Pellow' }).click();
    await page.getByRole('button', { name: /^Ines Pellow/ }).waitFor();
    await page.getByRole('button', { name: 'My name is not here' }).waitFor();
    expect(await page.getByText('Ada Min').count()).toBe(0);
  });
});
