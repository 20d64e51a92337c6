import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, keepPicture, openBrowser, typeOnPad } from './_page.js';

const clock = new RunningClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let recall: string;
let browser: Browser;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  const web = builtPages();
  t = await startTestApp({ clock, webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  const { almond } = await nutsWeek(b);
  recall = b.newId();
  const body = { id: recall, suspect: [almond], hazard: 'microbiological', hazardName: 'Salmonella', practice: false };
  await b.lead.caller.post('/recalls', body).expect(200);
  browser = await openBrowser();
  context = await browser.newContext({
    viewport: { width: 1024, height: 768 },
    hasTouch: true,
    baseURL: `http://127.0.0.1:${(t.server.address() as AddressInfo).port}`,
  });
  context.setDefaultTimeout(30_000);
  await context.clock.install({ time: clock.now() });
  page = await context.newPage();
  await page.goto(`/office/recalls/${recall}`);
  await tap(/Lee Dehl/, page.locator('main'));
  await typeOnPad(page, b.lead.caller.pin);
  await tap('Go on', dialog());
  await page.getByRole('heading', { level: 1, name: 'Recall: Salmonella' }).waitFor();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const dialog = () => page.locator('dialog').last();
const section = (title: string | RegExp) => page.locator('section', { has: page.getByRole('heading', { level: 2, name: title }) });
const tap = (name: string | RegExp, scope: ReturnType<typeof section>) => scope.getByRole('button', { name }).first().click();
const picture = (name: string) => keepPicture(page, `told-${name}`);

describe('the page of a recall case', () => {
  it('takes down that the authority was told: when, how, by whom and under which reference', async () => {
    const told = section('Authority and public');
    await told.getByText('Nobody has recorded that the authority was told.').waitFor();
    await told.getByText('Ring your local food-safety authority first.').waitFor();
    await picture('nobody');
    await tap('Record that the authority was told', told);
    expect(await dialog().getByRole('button', { name: 'Record it' }).isDisabled()).toBe(true);
    await dialog().getByRole('radio', { name: 'by telephone' }).check();
    await dialog().getByLabel('Who you spoke to or wrote to').fill('the duty officer');
    await dialog().getByLabel('Reference that the authority gave').fill('FSA-4471');
    await picture('form');
    await tap('Record it', dialog());
    await told.getByText(/^the authority was told, by telephone, to the duty officer, reference FSA-4471/).waitFor();
    await told.getByText(/Lee Dehl$/).waitFor();
    expect(await told.getByText('Nobody has recorded').count()).toBe(0);
    await picture('authority');
  });

  it('asks for what is not told and who is not reached before it is closed, and says over what it was', async () => {
    const closing = section('Close the case');
    const sign = closing.getByRole('button', { name: 'Sign and close' });
    expect(await closing.getByLabel('Why the authority is not recorded as told').count()).toBe(0);
    await closing.getByText('6 customers were not reached').waitFor();
    for (const [label, text] of [
      ['Why it stays on hold undecided', 'burnt on Friday'],
      ['What was found and done', 'the importer confirmed it'],
      ['Why there is no notice to the public', 'it went to cafés alone'],
      ['Why they were not reached', 'closed until Monday'],
    ] as const) {
      expect(await sign.isDisabled()).toBe(true);
      await closing.getByLabel(label).fill(text);
    }
    await picture('closing');
    await sign.click();
    await typeOnPad(page, b.lead.caller.pin);
    await tap('Go on', dialog());
    const main = page.locator('main');
    await main.getByText('Closed without a notice to the public being recorded: “it went to cafés alone”').waitFor();
    await main.getByText(/^Not reached when it was closed: .*Primary school.*\. “closed until Monday”$/).waitFor();
    await picture('closed');
  });

  it('takes a call that reaches somebody after it was closed, and says that it was after', async () => {
    const ring = section(/^Contact list/);
    await tap('Primary school: informed', ring);
    await tap('Record the call', dialog());
    await ring
      .locator('.contact-one', { hasText: 'Primary school' })
      .getByText(/informed, after the case was closed$/)
      .waitFor();
    await section('Contact list: 5 of 6 left').waitFor();
    expect(await ring.getByText(/after the case was closed/).count()).toBe(1);
    await picture('called-after');
  });
});
