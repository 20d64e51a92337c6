import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, keepPicture, typeOnPad } from './_page.js';

const clock = new RunningClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let browser: Browser;
let context: BrowserContext;
let page: Page;
/** Taps and keys since it was set to nothing: what a hand does, counted. */
let steps = 0;

beforeAll(async () => {
  const web = builtPages();
  t = await startTestApp({ clock, webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  await nutsWeek(b);
  browser = await openBrowser();
  context = await browser.newContext({
    viewport: { width: 1024, height: 768 },
    hasTouch: true,
    baseURL: `http://127.0.0.1:${(t.server.address() as AddressInfo).port}`,
  });
  context.setDefaultTimeout(30_000);
  await context.clock.install({ time: clock.now() });
  page = await context.newPage();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const main = () => page.locator('main');
const heading = (text: string | RegExp) => page.getByRole('heading', { level: 1, name: text });
const section = (title: string | RegExp) => page.locator('section', { has: page.getByRole('heading', { level: 2, name: title }) });
const house = () => section('In the house');
const theCase = async () => {
  const { body } = await b.lead.caller.get('/recalls').expect(200);
  const real = body.find((r: { practice: boolean }) => !r.practice);
  return (await b.lead.caller.get(`/recalls/${real.id}`).expect(200)).body;
};
async function tap(name: string | RegExp, scope = main()): Promise<void> {
  steps += 1;
  await scope.getByRole('button', { name }).or(scope.getByRole('link', { name })).first().click();
}
async function type(label: string | RegExp, text: string): Promise<void> {
  steps += 1;
  await page.getByLabel(label).fill(text);
}
async function pick(name: string | RegExp): Promise<void> {
  steps += 1;
  await main().getByRole('radio', { name }).check();
}
const picture = async (name: string): Promise<void> => {
  for (const [size, viewport] of Object.entries({ wide: { width: 1024, height: 768 }, tall: { width: 800, height: 1280 } })) {
    await page.setViewportSize(viewport);
    await keepPicture(page, `${name}-${size}`);
  }
  await page.setViewportSize({ width: 1024, height: 768 });
};

describe('the call at two in the afternoon, by hand', () => {
  it('goes from the lot number on the telephone to the list to ring in two steps', async () => {
    await page.goto('/office');
    await tap(/Lee Dehl/);
    await typeOnPad(page, b.lead.caller.pin);
    await tap('Go on', page.locator('dialog'));
    await heading('Office').waitFor();
    await picture('office');
    steps = 0;
    await type('A lot code, or a name', 'a77');
    await page.keyboard.press('Enter');
    steps += 1;
    await heading('ground almond, lot A77').waitFor();
    expect(steps).toBe(2);
    const names = await main().locator('.contact-name strong').allTextContents();
    expect(names[0]).toBe('Food bank');
    expect(names).toHaveLength(6); // no hazard is chosen yet, so whom a shared bowl leads to is among them
    await picture('lot');
  });

  it('chooses the hazard and opens the case: everything in the house is put on hold', async () => {
    await pick(/^microbiological/);
    await section('What holds it')
      .getByText(/^Possible/)
      .waitFor();
    await tap('Open a recall');
    await type(/^In a word/, 'Salmonella');
    await pick('It is real');
    await picture('new-recall');
    await tap(/put everything on hold/);
    await heading('Recall: Salmonella').waitFor();
    await picture('recall');
    expect(
      (
        await section(/^Contact list/)
          .locator('.contact-name strong')
          .allTextContents()
      ).slice(0, 2),
    ).toEqual(['Food bank', 'Primary school']);
    expect(await section('In the house').locator('.row-main strong').allTextContents()).toEqual(
      expect.arrayContaining(['5,360 g', '72 pieces']),
    );
    expect(await section('Does it add up?').locator('.sums').first().textContent()).toMatch(/12\.5 kg.*7,050 g.*5,360 g.*90 g.*99\.28 %/);
    expect(await house().getByText('held by a recall case: Salmonella').count()).toBe(await house().locator('.row').count());
    expect(await house().getByText('NOT ON HOLD').count()).toBe(0);
    expect((await theCase()).held).toBe(await house().locator('.row').count());
  });

  it('is all there in the tables that a person reads: 212 over the counter, 180 by van, 60 on the stall, 16 given away', async () => {
    const cards = Object.fromEntries(
      await section('Where it went')
        .locator('.card')
        .evaluateAll((all) => all.map((card) => [card.querySelector('h3')?.textContent, card.querySelector('.sum')?.textContent])),
    );
    expect(cards).toMatchObject({ 'over the counter': '212 pieces', 'on the stall': '60 pieces', 'given away': '16 pieces' });
    expect(await section('Went to people nobody can name').locator('.row').count()).toBe(5); // three at the counter, two at the stall: nobody knows their names
  });

  it('takes down each call by a tap, without a network too, and counts who is left', async () => {
    const ring = section(/^Contact list/);
    await section('Contact list: 6 of 6 left').waitFor();
    await tap('Food bank: informed', ring);
    await typeOnPad(page, '4');
    await type(/^Who it was and what they said/, 'the cook: four loaves, set apart');
    await tap('Record the call', page.locator('dialog'));
    await section('Contact list: 5 of 6 left').waitFor();
    // What was written down stays readable beside the contact.
    await ring.locator('.contact-one', { hasText: 'Food bank' }).getByText('“the cook: four loaves, set apart”').waitFor();
    await page.locator('.strip-state').getByText('all sent').waitFor();
    await context.setOffline(true);
    await tap('Primary school: no answer', ring);
    await ring
      .locator('.contact-calls')
      .getByText(/no answer$/)
      .waitFor();
    await tap('Early café: message left', ring);
    await ring
      .locator('.contact-calls')
      .getByText(/message left$/)
      .waitFor();
    await page.locator('.strip-state').getByText('2 waiting to be sent').waitFor();
    await picture('recall-off-line');
    await context.setOffline(false);
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await page.locator('.strip-state').getByText('all sent').waitFor();
    const [open] = (await b.lead.caller.get('/recalls').expect(200)).body;
    const { body } = await b.lead.caller.get(`/recalls/${open.id}`).expect(200);
    const calls = body.trace.contacts.flatMap((e: { name: string; calls: { answer: string; piecesHeld: number | null }[] }) =>
      e.calls.map((c) => [e.name, c.answer, c.piecesHeld]),
    );
    expect(calls).toEqual([
      ['Food bank', 'told', 4],
      ['Primary school', 'not-reached', null],
      ['Early café', 'message-left', null],
    ]);
  });

  it('is closed with a signature, and what is on hold stays on hold', async () => {
    await type('What was found and done', 'Importer confirmed by mail; all customers told; stock destroyed on Friday.');
    // What nobody decided about is stated first, lot by lot, with the reason.
    expect(await section('Close the case').getByRole('button', { name: 'Sign and close' }).isDisabled()).toBe(true);
    const stays = section('Close the case').locator('.notice', { hasText: 'Still to be decided on' });
    expect(await stays.locator('li').count()).toBe((await theCase()).held);
    await type('Why it stays on hold undecided', 'burnt on Friday');
    for (const why of ['Why the authority is not recorded as told', 'Why there is no notice to the public', 'Why they were not reached'])
      await type(why, 'this is tried out');
    await tap('Sign and close');
    await typeOnPad(page, b.lead.caller.pin);
    await tap('Go on', page.locator('dialog'));
    await main().getByText('closed', { exact: true }).first().waitFor();
    await main()
      .getByText(/^This case was closed on .*“burnt on Friday”/)
      .waitFor();
    await main()
      .getByText('What was found and done: “Importer confirmed by mail; all customers told; stock destroyed on Friday.”')
      .waitFor();
    await picture('recall-closed');
    expect((await theCase()).held).toBe(await house().locator('.row').count());
    expect(await house().locator('.row').count()).toBeGreaterThanOrEqual(2);
  });

  it('asks once more before more is done away with than is left, in the unit that stands beside it, and names what is signed', async () => {
    const dialog = page.locator('dialog').last();
    const typed = async (figure: string): Promise<void> => {
      await house().getByRole('button', { name: 'Decide on it: ground almond, lot A77' }).click();
      await dialog.getByRole('radio', { name: 'destroyed' }).check();
      await dialog.getByText('Left by the records: 5,360 g').waitFor();
      expect(await dialog.getByRole('radio', { name: 'g', exact: true }).isChecked()).toBe(true);
      await typeOnPad(page, figure);
      await dialog.getByLabel('Why').fill('burnt on Friday');
      await dialog.getByRole('button', { name: /^Sign/ }).click();
    };
    await typed('53600');
    await page.getByText('More than is left: 5,360 g by the records, and you typed 53600 g. Is that right?').waitFor();
    await tap('Change the amount', dialog);
    await tap('Close', dialog);
    await typed('5360');
    await page.getByText(/destroyed, 5360 g: ground almond, lot A77\./).waitFor();
    await tap('Close', dialog);
    await tap('Close', dialog);
  });

  it('decides on each lot that it holds in the case, closed or not: nothing is chosen beforehand, and it frees no more than is said', async () => {
    const dialog = page.locator('dialog').last();
    const sign = dialog.getByRole('button', { name: /^Sign/ });
    const held = (await theCase()).held;
    const decide = async (what: string): Promise<void> => {
      await house()
        .getByRole('button', { name: /^Decide on/ })
        .first()
        .click();
      await dialog.getByRole('radio', { name: what }).check();
    };
    await decide('released from the recall');
    expect(await sign.count()).toBe(0);
    await dialog.getByRole('radio', { name: 'this alone' }).check();
    expect(await sign.isDisabled()).toBe(true);
    await dialog.getByLabel('Why').fill('tested clear');
    await picture('recall-decide');
    await sign.click();
    await typeOnPad(page, b.lead.caller.pin);
    await tap('Go on', dialog);
    await house()
      .getByText(/^released from the recall, this alone, /)
      .waitFor();
    expect((await theCase()).held).toBe(held - 1);
    await decide('destroyed');
    await dialog.getByText(/^This case was closed on/).waitFor();
    await dialog.getByLabel('Why').fill('burnt on Friday');
    await sign.click();
    await typeOnPad(page, b.lead.caller.pin);
    await tap('Go on', dialog);
    await section('Decided on in this case, and gone')
      .getByText(/^destroyed, all of it, .*, after the case was closed$/)
      .waitFor();
    expect((await theCase()).held).toBe(held - 2);
    await picture('recall-decided');
  });

  it('is practised the same way: it says so on the screen and on every page of paper, and holds nothing', async () => {
    await page.goto('/office/find/A77');
    await tap('Open a recall');
    await pick(/^physical/);
    await type(/^In a word/, 'Metal');
    await pick('It is a practice');
    await tap('Open the practice');
    await heading('Practice recall: Metal').waitFor();
    expect(await main().locator('.practice').textContent()).toMatch(/^Practice/);
    await picture('practice');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.practice-mark').evaluate((e) => [getComputedStyle(e).position, e.checkVisibility()])).toEqual([
      'fixed',
      true,
    ]);
    await picture('practice-printed');
    await page.evaluate(() => {
      window.print = () => undefined;
    });
    await page.emulateMedia({ media: null });
    await tap('Print the contact list');
    await page.emulateMedia({ media: 'print' });
    expect(await main().locator('section.section:visible h2').allTextContents()).toEqual(['Practice: Contact list: 5 of 5 left']);
    expect(await page.locator('.contact-ticks:visible').count()).toBe(5);
    expect(await page.locator('.contact-phone:visible').count()).toBe(5);
    expect(await page.locator('.print-foot:visible').textContent()).toMatch(/^PRACTICE.*scope frozen.*sealed.*local food-safety authority/);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: null });
    for (const [button, begins] of [
      ['To print (PDF)', '%PDF'],
      ['Notice for customers (PDF)', '%PDF'],
      ['Notice for the public (PDF)', '%PDF'],
      ['Contact list (PDF)', '%PDF'],
      ['Spreadsheet (XLSX)', 'PK'],
    ] as const) {
      const waiting = page.waitForEvent('download');
      await tap(button, section('Papers'));
      expect((await readFile(await (await waiting).path())).toString('latin1').startsWith(begins)).toBe(true);
    }
    const own = page.waitForEvent('download');
    await tap('Notice for Early café (PDF)', section(/Contact list/));
    expect((await readFile(await (await own).path())).toString('latin1').startsWith('%PDF')).toBe(true);
    const { body } = await b.lead.caller.get('/recalls').expect(200);
    const practice = body.find((r: { practice: boolean }) => r.practice);
    expect((await b.lead.caller.get(`/recalls/${practice.id}`).expect(200)).body.held).toBe(0);
  });
});
