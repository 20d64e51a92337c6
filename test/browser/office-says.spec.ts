import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, keepPicture, openBrowser, tabletPage, typeOnPad } from './_page.js';

/** What the office says of a recall while it is asked, while it goes on, and where it is a practice. */
let t: TestApp;
let b: Bakehouse;
let browser: Browser;
let page: Page;
let almond: string;
let recall: string;
beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  ({ almond } = await nutsWeek(b));
  browser = await openBrowser();
  page = await tabletPage(browser, t);
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.goto('/office');
  await page.getByRole('button', { name: /^Lee Dehl/ }).click();
  await typeOnPad(page, b.lead.caller.pin);
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('heading', { level: 1, name: 'Office' }).waitFor();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const main = () => page.locator('main');
const section = (title: string | RegExp) => page.locator('section', { has: page.getByRole('heading', { level: 2, name: title }) });
const opened = async (practice: boolean, hazardName: string): Promise<string> => {
  const id = b.newId();
  const body = { id, suspect: [almond], hazard: 'physical', hazardName, practice, said: '' };
  await b.lead.caller.post('/recalls', body).expect(200);
  return id;
};

/** Holds back the answers to these addresses until it is let go on. */
async function holdBack(...addresses: readonly string[]): Promise<() => Promise<void>> {
  let go = (): void => undefined;
  const answered = new Promise<void>((resolve) => (go = resolve));
  for (const address of addresses)
    await page.route(address, async (route) => {
      await answered;
      await route.continue();
    });
  return async () => {
    go();
    await page.unrouteAll({ behavior: 'wait' });
  };
}

describe('the overview, before the answers are there', () => {
  it('says that it is still loading, and never that nothing is open; then what was just recorded is there', async () => {
    await section('Open deviations: 0').getByText('Nothing is open.').waitFor();
    await section('Food on hold: 0').waitFor();
    recall = await opened(false, 'glass');
    const about = { subjectType: 'site', subject: b.site, class: 'process-check', holds: false } as const;
    await b.lead.record('deviation-reported', about, { at: at('13:59'), words: { what: 'the lamp broke' } });
    const release = await holdBack('**/night?*', '**/api/v1/recalls', '**/open');
    await page.goto('/office');
    await section('Open recalls')
      .getByText(/^Still loading/)
      .waitFor();
    await section('Open deviations')
      .getByText(/^Still loading/)
      .waitFor();
    await section('Food on hold')
      .getByText(/^Still loading/)
      .waitFor();
    const text = await main().innerText();
    expect(text).not.toContain('Nothing is open');
    expect(text).not.toContain('No food is on hold');
    await keepPicture(page, 'overview-loading');
    for (const path of ['/office/bake', '/office/plan']) {
      await page.goto(path);
      await main()
        .getByText(/^Still loading/)
        .first()
        .waitFor();
    }
    await keepPicture(page, 'plan-loading');
    await page.goto('/office');
    await release();
    await section('Open recalls').getByText('glass', { exact: true }).waitFor();
    await section('Open deviations: 1').getByText('the lamp broke').waitFor();
    expect(
      await main()
        .getByText(/^Still loading/)
        .count(),
    ).toBe(0);
    await keepPicture(page, 'overview-loaded');
  });

  it('shows what somebody else records while it stands open', async () => {
    const practice = await opened(true, 'splinters');
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await section('Open recalls').getByText('splinters').waitFor();
    expect(practice).not.toBe(recall);
  });

  it('says that it is not known whether a recall is open where nobody answers', async () => {
    await page.route('**/api/v1/recalls', (route) => route.abort());
    await page.goto('/office');
    await section('Open recalls').getByText('Whether a recall is open is not known here now').waitFor();
    await page.unrouteAll();
    await section('Open recalls').getByRole('button', { name: 'Ask again' }).click();
    await section('Open recalls').getByText('glass', { exact: true }).waitFor();
  });
});

describe('an allergen that was used and is not on the ticket', () => {
  it('is on the overview among what needs somebody, and on the pages of the formula and the product', async () => {
    const make = await b.begun('white', at('02:35'), { station: b.place('mixer') });
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '25000', await b.delivered('flour', at('01:00')))] },
      { at: at('02:36') },
    );
    await b.baker.record('one-off-changed', { make, material: b.material('oil'), instead: b.material('almond') }, { at: at('02:50') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: g('0'), runs }, { at: at('03:40') });
    const counted = { run, loads: [], pieces: 20, rejects: 0, code: '25-bap', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    await b.baker.record('batch-counted-out', counted, { at: at('06:00') });
    await page.goto('/office');
    const says = /^bap: contains or may contain almonds? by what was used, which its formula does not say/;
    await section('In the food and not on the ticket: 1').getByText(says).waitFor();
    await keepPicture(page, 'not-on-ticket');
    await section('In the food and not on the ticket: 1').getByRole('link').click();
    await page
      .getByRole('heading', { name: /, version \d/ })
      .first()
      .waitFor();
    await page.locator('.notice').getByText(says).waitFor();
    await keepPicture(page, 'not-on-ticket-formula');
    await page.goto(`/office/catalogue/material/${b.material('bap')}`);
    await page.locator('.notice').getByText(says).waitFor();
  });
});

describe('an open recall', () => {
  it('says on the overview and in the list how many customers are still to be reached', async () => {
    const { body } = await b.lead.caller.get(`/recalls/${recall}`).expect(200);
    await page.goto('/office');
    const left = `${body.trace.contacts.length} customers still to be reached`;
    await section('Open recalls')
      .getByRole('link', { name: /open glass/ })
      .getByText(left)
      .waitFor();
    await page.goto('/office/recalls');
    await page
      .getByRole('row', { name: /^glass/ })
      .getByText(left)
      .waitFor();
    await keepPicture(page, 'recalls');
  });

  it('asks once more where a customer says that they have more than went to them, and the list says that it does not add up', async () => {
    await page.goto(`/office/recalls/${recall}`);
    const ring = section(/^Contact list/);
    const one = ring.locator('.contact-one', { hasText: '45 pieces' }).first();
    const name = (await one.locator('.contact-name strong').textContent()) ?? '';
    await one.getByRole('button', { name: /: informed$/ }).click();
    await typeOnPad(page, '99');
    const dialog = page.locator('dialog').last();
    await dialog.getByRole('button', { name: 'Record the call' }).click();
    await dialog.getByText('99 is more than went there: 45 pieces by the records').waitFor();
    await keepPicture(page, 'more-than-went');
    expect(
      (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body.trace.contacts.flatMap((c: { calls: unknown[] }) => c.calls),
    ).toEqual([]);
    await dialog.getByRole('button', { name: 'They do say 99: record it' }).click();
    await ring
      .locator('.contact-one', { hasText: name })
      .getByText(/says 99 are still there, and 45 went there by the records: this does not add up/)
      .waitFor();
    await keepPicture(page, 'does-not-add-up');
  });
});

describe('a practice', () => {
  it('says first that it is one wherever something is told to be done', async () => {
    await page.goto(`/office/lot/${almond}`);
    await main().locator('h1').waitFor();
    const { body } = await b.lead.caller.get('/recalls').expect(200);
    const practice = body.find((c: { practice: boolean }) => c.practice);
    await page.goto(`/office/recalls/${practice.id}`);
    await page.getByRole('heading', { level: 1, name: /^Practice recall/ }).waitFor();
    for (const title of [/clear our own counters/, /the authority first$/, /Contact list/, /^Close the/, /In the house|Would be put/])
      for (const heading of await page.getByRole('heading', { level: 2, name: title }).allTextContents())
        expect(heading).toMatch(/^Practice|^Would be/);
    await keepPicture(page, 'practice-case');
  });
});

describe('a page that the service takes long for', () => {
  it('says so, goes on waiting, and shows the answer when that has come', async () => {
    const goOn = await holdBack('**/api/v1/recalls');
    await page.goto('/office/recalls');
    await page
      .getByRole('heading', { name: 'The bakehouse’s computer is slow' })
      .or(page.getByText('The bakehouse’s computer is slow'))
      .first()
      .waitFor();
    await goOn();
    await page.getByRole('table', { name: 'Recall cases' }).or(page.getByText('No case was ever opened here')).first().waitFor();
  });
});
