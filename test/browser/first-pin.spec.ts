import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, signOn } from '../support/people.js';
import { builtPages, openBrowser, keepPicture, tabletPage, typeOnPad } from './_page.js';

const given = '502817';
let t: TestApp;
let house: House;
let person: string;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  t = await startTestApp({ webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  house = await House.found(t);
  ({ person } = await house.join('Ines Pellow', ['manager']));
  await house.givePin(person, given);
  browser = await openBrowser();
  page = await tabletPage(browser, t);
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

async function give(pin: string, step: RegExp): Promise<void> {
  await page.getByRole('heading', { name: step }).waitFor();
  await typeOnPad(page, pin);
  await page.getByRole('button', { name: 'Go on' }).click();
}

describe('somebody whose PIN was given to them', () => {
  it('is asked for one of their own, twice the same, and then is signed on', async () => {
    await page.goto('/office');
    await page.getByRole('button', { name: /^Ines Pellow/ }).click();
    await give(given, /^Ines Pellow$/);
    await page.getByText('This PIN was given to you').waitFor();
    await keepPicture(page, 'given', { fullPage: false });
    await give('640277', /the new PIN$/);
    await give('640278', /the new PIN once more$/);
    await page.getByText('The two are not the same').waitFor();
    await give('123456', /the new PIN$/);
    await give('123456', /the new PIN once more$/);
    await page.getByText('That PIN is too easy to guess').waitFor();
    await give('640277', /the new PIN$/);
    await give('640277', /the new PIN once more$/);
    await page.locator('.strip').getByText('Ines Pellow').waitFor();
    await keepPicture(page, 'signed-on', { fullPage: false });
    const again = await signOn(t, house.organisation, person, '640277');
    expect((await again.get('/me').expect(200)).body.strength).toBe('pin');
  });
});
