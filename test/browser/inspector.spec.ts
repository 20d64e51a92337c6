import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { pagesOf } from '../support/read-papers.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, pictureFolder, typeOnPad } from './_page.js';

const clock = new RunningClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let pictures: string;
let inspector: { person: string; pin: string };

beforeAll(async () => {
  const web = builtPages();
  t = await startTestApp({ clock, webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  await nutsWeek(b);
  inspector = await b.house.join('Oda Quill', ['inspector']);
  browser = await openBrowser();
  pictures = await pictureFolder();
  const { port } = t.server.address() as AddressInfo; // it listens on a port
  context = await browser.newContext({ viewport: { width: 1024, height: 768 }, hasTouch: true, baseURL: `http://127.0.0.1:${port}` });
  context.setDefaultTimeout(30_000);
  await context.clock.install({ time: clock.now() });
  page = await context.newPage();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const main = () => page.locator('main');
async function signOn(name: RegExp, pin: string): Promise<void> {
  await page.getByRole('button', { name }).click();
  await typeOnPad(page, pin);
  await page.locator('dialog').getByRole('button', { name: 'Go on' }).click();
}
const fold = (title: RegExp) => page.locator('section', { has: page.getByRole('heading', { level: 2, name: title }) });
const unfold = async (title: RegExp): Promise<void> => {
  const details = fold(title).locator('details');
  if (!(await details.evaluate((d) => d.hasAttribute('open')))) await details.locator('summary').first().click();
};
const picture = async (name: string): Promise<void> => {
  for (const [size, viewport] of Object.entries({ wide: { width: 1024, height: 768 }, tall: { width: 800, height: 1280 } })) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: path.join(pictures, `${name}-${size}.png`) });
  }
};

describe('an inspector with an access of their own', () => {
  it('signs on and is told what they may look at', async () => {
    await page.goto('/inspector');
    await signOn(/Oda Quill/, inspector.pin);
    await page.getByRole('heading', { level: 1, name: /your access$/ }).waitFor();
    await picture('access');
    expect(await main().getByRole('button').first().textContent()).toMatch(/records from .* to today/);
    await main().getByRole('button').first().click();
    await page.getByRole('heading', { level: 1, name: 'For the officer' }).waitFor();
  });

  it('sees thirty days by one more tap: mixes, loads, deviations, what came in, the seal', async () => {
    await page.getByRole('radio', { name: '30 days' }).check();
    for (const title of [/^Deviations/, /^Mixes: \d/, /^Oven loads: \d/, /^What came in: \d/, /^The seal/]) await fold(title).waitFor();
    await unfold(/^Mixes/);
    await fold(/^Mixes/)
      .getByText('Frangipane')
      .or(fold(/^Mixes/).getByText(/frangipane/i))
      .first()
      .waitFor();
    await unfold(/^What came in/);
    await fold(/^What came in/)
      .getByText(/A77/)
      .first()
      .waitFor();
    expect(
      await main()
        .getByText(/local food-safety authority’s rules/)
        .count(),
    ).toBeGreaterThan(0);
    await picture('month');
  });

  it('takes the pack away as a PDF by a click, and the house sees that they did', async () => {
    const waiting = page.waitForEvent('download');
    await main()
      .getByRole('button', { name: /All of it to print/ })
      .click();
    const file = await readFile(await (await waiting).path());
    expect(file.subarray(0, 4).toString('latin1')).toBe('%PDF');
    const pages = await pagesOf(file);
    expect(pages.length).toBeGreaterThan(3);
    expect(pages.map((p) => p.text).join(' ')).toContain('Records for inspection');
    expect(pages.filter((p) => p.items.length < 8)).toEqual([]); // no page with nothing but head and foot
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query('SELECT what, exported FROM viewing WHERE person = $1', [inspector.person]),
    );
    expect(rows).toEqual(
      expect.arrayContaining([
        { what: 'the records of a period', exported: false },
        { what: 'the inspection pack, as PDF', exported: true },
      ]),
    );
  });
});

describe('an officer at the table, from the tablet', () => {
  it('is shown the day in two taps, and again when the network is gone: it says as of when', async () => {
    await page.getByRole('button', { name: 'Leave' }).click();
    await page.getByRole('heading', { level: 1, name: /^Sign on/ }).waitFor();
    await page.goto('/table');
    await signOn(/Lee Dehl/, b.lead.caller.pin);
    await page.getByRole('link', { name: 'Officer' }).click();
    await page.getByRole('radio', { name: '30 days' }).check();
    await fold(/^Mixes: \d/).waitFor();
    await context.setOffline(true);
    await page.getByRole('navigation', { name: 'Places' }).getByRole('link').first().click();
    await page.getByRole('link', { name: 'Officer' }).click();
    await page.getByRole('radio', { name: '30 days' }).check();
    await page.getByText(/^Not connected: as it stood/).waitFor();
    await fold(/^Mixes: \d/).waitFor();
    await picture('off-line');
  });
});
