import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { RunningClock } from '../support/running-clock.js';
import { builtPages, openBrowser, typeOnPad } from './_page.js';

const count = 130;
const wide = { width: 1440, height: 900 };
let t: TestApp;
let browser: Browser;
let page: Page;
let b: Bakehouse;
/** The numbers of the notes, in the order in which they came. */
const notes = Array.from({ length: count }, (_, i) => (i === 0 ? '=1+1, "DN"' : `DN ${1000 + i}`));

beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  b = await Bakehouse.found(t);
  await b.baker.send(
    notes.map((noteNumber, i) =>
      b.house.entry({
        kind: 'delivery-received',
        payload: {
          ...{ supplier: b.party('nuts'), noteNumber, photo: null, unattended: false },
          lines: [b.line('flour', b.newId(), { code: `F${i}` })],
        },
        at: at(`0${1 + Math.floor(i / 60)}:${String(i % 60).padStart(2, '0')}`),
      }),
    ),
  );
  browser = await openBrowser();
  const { port } = t.server.address() as AddressInfo; // it listens on a port
  // a desk: a mouse, and no finger
  const context = await browser.newContext({
    viewport: wide,
    baseURL: `http://127.0.0.1:${port}`,
    acceptDownloads: true,
    serviceWorkers: 'block',
  });
  context.setDefaultTimeout(30_000);
  await context.clock.install({ time: t.clock.now() });
  page = await context.newPage();
  await page.goto('/office/goods');
  await page.getByRole('button', { name: /Lee Dehl/ }).click();
  await typeOnPad(page, b.lead.caller.pin);
  await page.getByRole('button', { name: 'Go on' }).click();
  await table().waitFor();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const table = () => page.getByRole('table', { name: 'Deliveries' });
const column = async (head: string): Promise<string[]> => {
  const heads = await table().getByRole('columnheader').allTextContents();
  return table()
    .locator(`tbody td:nth-child(${heads.indexOf(head) + 1})`)
    .allTextContents();
};
const head = (name: string) => table().getByRole('columnheader', { name });
const find = () => page.getByLabel(/^Find a supplier/);
const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.closest('tr, h2, label, .search')?.textContent ?? '');
const newestFirst = [...notes].reverse();

describe('a table of the office', () => {
  it('has rows of a desk under a mouse, and a head that stays', async () => {
    const heights = await table()
      .locator('tbody tr')
      .evaluateAll((rows) => rows.map((row) => row.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(32);
    expect(Math.max(...heights)).toBeLessThanOrEqual(36);
    await page.mouse.wheel(0, 1_500);
    await page.waitForFunction(() => scrollY > 1_000);
    expect(
      await head('Note').evaluate(
        (e) => document.elementFromPoint(e.getBoundingClientRect().x + 12, e.getBoundingClientRect().y + 9)?.textContent,
      ),
    ).toBe('Note');
    await page.evaluate(() => scrollTo(0, 0));
  });

  it('shows a page at a time, and the rest on the next', async () => {
    expect(await column('Note')).toEqual(newestFirst.slice(0, 100));
    await page.getByText(`1 to 100 of ${count}`).waitFor();
    await page.getByRole('button', { name: 'Next' }).click();
    expect(await column('Note')).toEqual(newestFirst.slice(100));
    expect(await page.getByRole('button', { name: 'Next' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Previous' }).click();
    expect(await column('Note')).toEqual(newestFirst.slice(0, 100));
  });

  it('is sorted by its heads, with the mouse and with keys, and says so', async () => {
    expect(await head('Note').getAttribute('aria-sort')).toBe('none');
    await head('Note').getByRole('button').click();
    expect(await head('Note').getAttribute('aria-sort')).toBe('ascending');
    expect(await column('Note')).toEqual(notes.slice(0, 100));
    await head('Note').getByRole('button').press('Enter');
    expect(await head('Note').getAttribute('aria-sort')).toBe('descending');
    expect((await column('Note'))[0]).toBe('DN 1129');
    await head('Note').getByRole('button').press('Space');
    expect(await head('Note').getAttribute('aria-sort')).toBe('none');
    expect((await column('Note'))[0]).toBe('DN 1129');
  });

  it('shows what has every word on it, in whatever column, and says where nothing has', async () => {
    await find().fill('f12 IMPORTER dn');
    expect(await column('Note')).toEqual(newestFirst.filter((n) => /^DN (1012|112.)$/.test(n)));
    await find().fill('nothing like it');
    await page.getByText('Nothing in this list has that on it').waitFor();
    await find().fill('');
    await page.getByText(`1 to 100 of ${count}`).waitFor();
  });

  it('saves what is shown as CSV, whole and in its order, without a formula in it', async () => {
    await find().fill('DN');
    await head('Note').getByRole('button').click();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as CSV: Deliveries' }).click();
    const file = await saved;
    expect(file.suggestedFilename()).toBe('deliveries.csv');
    const lines = (await readFile(await file.path(), 'utf8')).replace(/^\ufeff/, '').split('\r\n');
    expect(lines[0]).toBe('Supplier,Came,Note,State,What came,Lot codes,Taken in');
    expect(lines).toHaveLength(count + 1);
    expect(lines[1]).toContain(',"\'=1+1, ""DN""",');
    expect(lines[2]).toContain(',DN 1001,');
    expect(lines[count]).toContain(',DN 1129,');
    await head('Note').getByRole('button').click();
    await head('Note').getByRole('button').click();
    await find().fill('');
  });

  it('is on paper as it is, all pages of it, without its keys', async () => {
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await table().locator('tbody tr').count()).toBe(count);
    expect(await page.getByLabel(/^Find a supplier/).isVisible()).toBe(false);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: null });
    await page.getByText(`1 to 100 of ${count}`).waitFor();
  });
});

describe('what is opened from a table', () => {
  it('is reached by keys alone: arrows from the box to the row, Enter opens it beside the list, with an address of its own', async () => {
    await find().fill('DN 1127');
    await find().press('ArrowDown');
    expect(await focused()).toContain('DN 1127');
    await find().fill('');
    await find().press('ArrowDown');
    expect(await focused()).toContain('DN 1129');
    for (const [key, note] of [
      ['ArrowDown', 'DN 1128'],
      ['ArrowDown', 'DN 1127'],
      ['End', 'DN 1030'],
      ['Home', 'DN 1129'],
      ['ArrowUp', 'DN 1129'],
      ['ArrowDown', 'DN 1128'],
    ] as const) {
      await page.keyboard.press(key);
      expect([key, await focused()]).toEqual([key, expect.stringContaining(note)]);
    }
    await page.keyboard.press('Enter');
    await page.getByRole('complementary').getByText('note DN 1128').waitFor();
    expect(new URL(page.url()).pathname).toMatch(/^\/office\/goods\/of\/2026-11-25\/[0-9a-f-]{36}$/);
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H2');
    expect(await table().isVisible()).toBe(true);
    expect(await table().locator('tr:has([aria-current])').textContent()).toContain('DN 1128');
  });

  it('closes by Escape, and the row that it was opened from has the focus', async () => {
    await page.keyboard.press('Escape');
    await page.getByRole('complementary').waitFor({ state: 'detached' });
    expect(new URL(page.url()).pathname).toBe('/office/goods');
    expect(await focused()).toContain('DN 1128');
  });

  it('opens by a click anywhere on its row, and by its address', async () => {
    await table().getByText('DN 1126', { exact: true }).click();
    const shown = page.getByRole('complementary').getByText('note DN 1126');
    await shown.waitFor();
    await page.reload();
    await shown.waitFor();
    await page.getByRole('complementary').getByRole('button', { name: 'Close' }).click();
    expect(await focused()).toContain('DN 1126');
  });

  it('is a page of its own where there is no room, and leaving it leads back to the row in the list as it was', async () => {
    await find().fill('DN 112');
    await page.setViewportSize({ width: 1024, height: 768 });
    await table().getByText('DN 1125', { exact: true }).click();
    await page.getByRole('main').getByText('note DN 1125').waitFor();
    expect(await table().count()).toBe(0);
    expect(await page.getByRole('complementary').count()).toBe(0);
    await page
      .getByRole('link', { name: /Goods in/ })
      .last()
      .click();
    await table().waitFor();
    expect(await find().inputValue()).toBe('DN 112');
    expect(await focused()).toContain('DN 1125');
    await page.setViewportSize(wide);
    await find().fill('');
  });
});

describe('the office’s head', () => {
  it('finds anything from anywhere with keys alone: “/”, a part of it, arrows, Enter', async () => {
    await page.goto('/office/plan');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.keyboard.press('/');
    const box = page.getByRole('combobox');
    expect(await box.evaluate((e) => e === document.activeElement)).toBe(true);
    await page.keyboard.type('/dn1127'); // pressed once more by somebody who was there already
    const found = page.getByRole('listbox', { name: 'Found' });
    await found.getByRole('group', { name: 'Deliveries, by their note' }).getByRole('option').waitFor();
    await page.keyboard.press('ArrowDown');
    expect(await found.locator('[aria-selected="true"]').textContent()).toContain('DN 1127');
    expect(await box.getAttribute('aria-activedescendant')).toBe(await found.locator('[aria-selected="true"]').getAttribute('id'));
    await page.keyboard.press('Enter');
    await page.getByRole('complementary').getByText('note DN 1127').waitFor();
  });

  it('says what each one is: lots, suppliers, customers, people', async () => {
    await page.keyboard.press('Control+k');
    const kinds = async (words: string): Promise<string[]> => {
      await page.getByRole('combobox').fill(words);
      await page
        .getByRole('option')
        .filter({ hasText: new RegExp(words, 'i') })
        .first()
        .waitFor();
      return page
        .getByRole('listbox')
        .getByRole('group')
        .evaluateAll((groups) => groups.map((g) => g.getAttribute('aria-label') ?? ''));
    };
    expect(await kinds('F77')).toEqual(['Lots']);
    expect(await kinds('Lee De')).toEqual(['People']);
    expect(await kinds('café')).toEqual(['Customers']);
    expect(await kinds('importer')).toContain('Suppliers');
    await page.getByRole('combobox').fill('nowhere at all');
    await page.getByText('Nothing that you may see has that').waitFor();
    await page.keyboard.press('Escape');
  });

  it('stays in the office: a page of the night has its address there, and no section leads to the table', async () => {
    await page.goto('/office');
    await page.getByRole('heading', { level: 1, name: 'Office' }).waitFor();
    const ways = await page
      .getByRole('navigation', { name: 'Places' })
      .locator('a')
      .evaluateAll((all) => all.map((a) => [a.textContent, a.getAttribute('href')]));
    expect(ways.filter(([, to]) => !to?.startsWith('/office'))).toEqual([['Leave for the table', '/']]);
    await page.goto('/office/bake');
    await page.getByRole('heading', { level: 1, name: 'Today’s bake' }).waitFor();
    expect(await page.locator('main a[href^="/table"]').count()).toBe(0);
    expect(await page.locator('.office-shell').count()).toBe(1);
  });

  it('has its sections behind one key on a telephone, in one line', async () => {
    await page.setViewportSize({ width: 320, height: 640 });
    const places = page.getByRole('navigation', { name: 'Places' });
    expect(await places.evaluate((e) => e.clientHeight)).toBeLessThanOrEqual(60);
    await places.getByText('Menu').click();
    await places.getByRole('link', { name: 'Stock', exact: true }).click();
    await page.getByRole('heading', { level: 1, name: 'In stock' }).waitFor();
    await page.setViewportSize(wide);
  });
});
