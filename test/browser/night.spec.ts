import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { nightHouse, type NightHouse } from './_house.js';
import { openBrowser, pictureFolder, retypeOnPad, typeOnPad } from './_page.js';

const root = path.resolve(import.meta.dirname, '../..');
const clock = new SettableClock('2026-11-25T02:30:00Z');
let web: string;
let t: TestApp;
let night: NightHouse;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let pictures: string;

beforeAll(async () => {
  web = await mkdtemp(path.join(tmpdir(), 'bakehouse-web-'));
  await promisify(execFile)(process.execPath, [path.join(root, 'node_modules/vite/bin/vite.js'), 'build', '--outDir', web, '--emptyOutDir', '--logLevel', 'error'], {
    cwd: path.join(root, 'apps/web'), env: { ...process.env, NODE_ENV: 'production' },
  });
  t = await startTestApp({ clock, webFolder: web });
  await t.app.listen(0, '127.0.0.1');
  night = await nightHouse(t);
  browser = await openBrowser();
  pictures = await pictureFolder();
  context = await browser.newContext({ viewport: { width: 1024, height: 768 }, hasTouch: true, baseURL: `http://127.0.0.1:${(t.server.address() as AddressInfo).port}` });
  context.setDefaultTimeout(8_000);
  await context.clock.install({ time: clock.now() });
  page = await context.newPage();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await t?.close();
  await rm(web, { recursive: true, force: true });
});

/** Both clocks on the wall show this, and the tablet's own timers have run until then. */
async function at(time: string): Promise<void> {
  clock.set(`2026-11-25T${time}:00Z`);
  const shown = await page.evaluate(() => Date.now());
  if (clock.now().getTime() > shown) await page.clock.fastForward(clock.now().getTime() - shown);
}

const tap = (name: string | RegExp, scope = page.locator('main')): Promise<void> => scope.getByRole('button', { name }).or(scope.getByRole('link', { name })).first().click();
const place = (name: string): Promise<void> => page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name, exact: true }).click();
const heading = (text: string | RegExp) => page.getByRole('heading', { level: 1, name: text });
const picture = async (name: string): Promise<void> => {
  for (const [size, viewport] of Object.entries({ wide: { width: 1024, height: 768 }, tall: { width: 800, height: 1280 } })) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: path.join(pictures, `${name}-${size}.png`), fullPage: true });
  }
  await page.setViewportSize({ width: 1024, height: 768 });
};
const strip = () => page.locator('.strip-state');

async function enrolAndTap(): Promise<void> {
  const { body } = await night.house.administrator.post('/devices/enrolment-codes', { site: night.house.site }).expect(201);
  await page.goto('/');
  await page.getByText('Make this one of the bakehouse’s tablets').click();
  await page.getByLabel('Code').fill(String(body.code));
  await tap('Enrol');
  await page.getByText('· Table').waitFor();
  await picture('names');
  await tap('Tam Wick');
  await heading('Today’s bake').waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
}

describe('a night on one tablet', () => {
  it('lets a name be tapped, and begins a dough in two taps', async () => {
    await enrolAndTap();
    await picture('empty');
    await place('Start');
    await tap(/White dough/);
    await picture('start');
    await tap(/^Begin 41,450 g/);
    await page.getByText('41,450 g planned').waitFor();
  });

  it('takes a reading and says the verdict at once', async () => {
    await tap('Weigh in');
    await picture('weigh');
    await tap('All in as shown');
    await tap('Mixed');
    await typeOnPad(page, '28.5');
    await picture('mix');
    await tap('Record the mix');
    await page.locator('.verdict').waitFor();
    expect(await page.locator('.verdict-word').textContent()).toBe('out');
    await picture('mixed');
  });
});
