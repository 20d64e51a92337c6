import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import * as z from 'zod';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { PaperOrders } from '../../apps/api/src/papers/orders/orders.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { pagesOf } from '../support/read-papers.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, keepPicture, typeOnPad } from './_page.js';

const clock = new RunningClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let inspector: { person: string; pin: string };

beforeAll(async () => {
  const web = builtPages();
  t = await startTestApp({ clock, webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  await nutsWeek(b);
  inspector = await b.house.join('Oda Quill', ['inspector']);
  browser = await openBrowser();
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
    await keepPicture(page, `${name}-${size}`, { fullPage: false });
  }
};

/** A paper of the test’s own: what is ordered after it waits until it is let go on. */
function held(): () => void {
  let finish = (): void => undefined;
  const finished = new Promise<void>((resolve) => (finish = resolve));
  t.app
    .get(PaperOrders)
    .order({ organisation: 'nobody’s', person: 'nobody' }, () => finished.then(() => ({ bytes: Buffer.from(''), name: '' })));
  return () => finish();
}
const toPrint = () => main().getByRole('button', { name: /All of it to print/ });

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
    const others = [held(), held()];
    const waiting = page.waitForEvent('download');
    await toPrint().click();
    await main().getByText('2 papers are made before this one.').waitFor();
    await picture('ordered');
    others[0]?.();
    await main().getByText('1 paper is made before this one.').waitFor();
    others[1]?.();
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
        { what: 'the inspection pack, ordered as PDF', exported: true },
      ]),
    );
  });
});

describe('a paper that waits for its turn', () => {
  it('is taken back by a click, and by leaving the page', async () => {
    const other = held();
    for (const leave of [
      () => main().getByRole('button', { name: 'Cancel this paper' }).click(),
      () => main().getByRole('radio', { name: 'Today' }).check(),
    ]) {
      const ordered = page.waitForResponse((r) => r.status() === 202);
      const takenBack = page.waitForResponse((r) => r.request().method() === 'DELETE');
      await toPrint().click();
      const { id } = z.object({ id: z.string() }).parse(await (await ordered).json());
      await main().getByText('1 paper is made before this one.').waitFor();
      await leave();
      expect([(await takenBack).status(), (await takenBack).url()]).toEqual([204, expect.stringContaining(id)]);
      await main().getByText('1 paper is made before this one.').waitFor({ state: 'detached' });
    }
    other();
    await main().getByRole('radio', { name: '30 days' }).check();
    await toPrint().waitFor();
  });

  it('says what to do where it is lost, goes on after a network that was gone, and says why too many wait', async () => {
    const other = held();
    await toPrint().click();
    await main().getByText('1 paper is made before this one.').waitFor();
    await context.setOffline(true);
    await main().getByText('Not connected. It goes on when the network is back.').waitFor();
    await context.setOffline(false);
    await main().getByText('1 paper is made before this one.').waitFor();
    t.app.get(PaperOrders).onModuleDestroy(); // as when the service starts anew
    await main().getByText('Order it again: it is made from the same records.').waitFor();
    other();
    await page.route('**/inspection/pack/order?*', (route) =>
      route.fulfill({
        status: 503,
        contentType: 'application/problem+json',
        json: { type: 'x/unavailable', title: 'Not ready', detail: 'Wait a moment.' },
      }),
    );
    await toPrint().click();
    await main().getByText('Wait a moment.').waitFor();
    await page.unroute('**/inspection/pack/order?*');
  });
});

describe('an officer at the table, from the tablet', () => {
  it('is shown the day in two taps, and again when the network is gone: it says as of when', async () => {
    await page.getByRole('button', { name: 'Leave' }).click();
    await page.getByRole('heading', { level: 1, name: /^Sign on/ }).waitFor();
    // at the inspector's address, where that was left
    await signOn(/Lee Dehl/, b.lead.caller.pin);
    await page.getByText('More', { exact: true }).click();
    await page.getByRole('link', { name: 'Officer' }).click();
    await page.getByRole('radio', { name: '30 days' }).check();
    await fold(/^Mixes: \d/).waitFor();
    await context.setOffline(true);
    await page.getByRole('navigation', { name: 'Places' }).getByRole('link').first().click();
    await page.getByText('More', { exact: true }).click();
    await page.getByRole('link', { name: 'Officer' }).click();
    await page.getByRole('radio', { name: '30 days' }).check();
    await page.getByText(/^This device is off line: as it stood/).waitFor();
    await fold(/^Mixes: \d/).waitFor();
    await picture('off-line');
  });
});
