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
import { signOn } from '../support/people.js';
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
const strip = (): Promise<string | null> => page.locator('.strip-state').textContent();

async function enrolAndTap(): Promise<void> {
  const { body } = await night.house.administrator.post('/devices/enrolment-codes', { site: night.house.site }).expect(201);
  await page.goto('/');
  await page.getByText('Make this one of the bakehouse’s tablets').click();
  await page.getByLabel('Code').fill(String(body.code));
  await tap('Enrol');
  await page.locator('.house').getByText('Table').waitFor();
  await picture('names');
  await tap('Tam Wick');
  await heading('Today’s bake').waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
}

const main = () => page.locator('main');
const verdict = () => page.locator('.verdict-word').textContent();

/** Puts a product that waits into an oven, in parts where somebody says how many. */
async function load(product: string, oven: string, pieces?: string): Promise<void> {
  await place('Today');
  await tap('Into the oven');
  await page.getByText(oven, { exact: true }).click();
  await main().getByRole('button', { name: new RegExp(`^${product}.*waiting`) }).click();
  if (pieces !== undefined) {
    await main().getByRole('button', { name: new RegExp(`^${product}: `) }).click();
    await retypeOnPad(page, pieces);
    await page.getByRole('button', { name: 'Done' }).click();
  }
  await tap('In it goes');
  await page.getByText('So far').waitFor();
}

/** Takes the core of a load that is due, from the list of what is due. */
async function core(product: string, figure: string): Promise<string> {
  await place('Today');
  await main().getByRole('link', { name: new RegExp(`${product}.*core temperature`) }).first().click();
  await typeOnPad(page, figure);
  await tap(/^Record/);
  await page.locator('.verdict').waitFor();
  return await verdict() ?? '';
}

async function out(product: string, deck: string): Promise<void> {
  await page.getByRole('list', { name: 'Running now' }).getByRole('link', { name: new RegExp(`${product}.*${deck}`) }).first().click();
  await main().getByRole('button', { name: 'Out', exact: true }).click();
  await page.getByText('out of the oven').or(main().getByText('out', { exact: true })).first().waitFor();
}

async function countOut(product: string): Promise<void> {
  await place('Today');
  await main().getByRole('link', { name: new RegExp(`^${product}: `) }).first().click();
  await tap('Count out');
  await tap(/^Count out \d/);
  await page.getByText('counted').first().waitFor();
}

describe('one dough, three breads, one bad load', () => {
  it('begins with a tapped name, and a dough in two taps', async () => {
    await enrolAndTap();
    await picture('empty');
    await place('Start');
    await tap(/White dough/);
    await picture('start');
    await tap(/^Begin 41,450 g/);
    await page.getByText('41,450 g planned').waitFor();
  });

  it('takes everything in as it is shown, and the mix with its temperature judged at once', async () => {
    await at('02:36');
    await tap('Weigh in');
    await picture('weigh');
    await tap('All in as shown');
    await at('02:50');
    await tap('Mixed');
    for (const [what, figure] of [['Fast', '9'], ['Water', '19'], ['Flour', '21'], ['Room', '24'], ['Dough', '28.5']] as const) {
      await main().getByRole('button', { name: new RegExp(`^${what}`) }).click();
      await retypeOnPad(page, figure);
    }
    await picture('mix');
    await tap('Record the mix');
    await page.locator('.verdict').waitFor();
    expect(await verdict()).toBe('out');
    expect(await main().textContent()).toContain('Friction factor 21.5 °C against 14 °C expected. It may be minutes on fast: 9 instead of 6.');
    await picture('mixed');
  });

  it('makes it up into three breads, and it sums', async () => {
    await at('03:40');
    await tap('Make up into products');
    for (const [what, figure] of [['Old dough kept', '1200'], ['Scrap', '270']] as const) {
      await main().getByRole('button', { name: what }).click();
      await typeOnPad(page, figure);
      await page.getByRole('button', { name: 'Done' }).click();
    }
    expect(await main().textContent()).toContain('It sums: 41,450 g went in.');
    await picture('make-up');
    await tap('Record the make-up');
    await page.getByText('it sums').waitFor();
    await picture('make');
  });

  it('goes on without a network: loads, timers, cores', async () => {
    await page.getByText('all sent').waitFor();
    await at('04:00');
    await context.setOffline(true);
    await at('04:10');
    await load('White tin 800 g', 'Top deck', '10');
    await at('04:12');
    await load('White tin 800 g', 'Middle deck');
    await at('04:40');
    await out('White tin', 'Top deck');
    expect(await core('White tin', '95.1')).toBe('fine');
    await at('04:42');
    await out('White tin', 'Middle deck');
    expect(await core('White tin', '95.1')).toBe('fine');
    await at('04:44');
    await load('Bloomer 400 g', 'Bottom deck');
    await at('04:50');
    await load('Bap', 'Rack oven', '108');
    await picture('timers');
    await at('05:01');
    await out('Bap', 'Rack oven');
    expect(await core('Bap', '93.0')).toBe('fine');
    await at('05:03');
    await load('Bap', 'Rack oven');
    expect(await strip()).toContain('not connected');
  });

  it('says at once that 87.9 °C is out, and puts it back in with one tap', async () => {
    await at('05:12');
    await out('Bloomer', 'Bottom deck');
    expect(await core('Bloomer', '87.9')).toBe('out');
    expect(await main().textContent()).toContain('Nothing of it leaves before this is answered.');
    await picture('outside');
    await tap('Back in the oven, 5 min');
    await main().getByText('back in the oven, 5 min more').waitFor();
    await picture('back-in');
    await at('05:16');
    await out('Bap', 'Rack oven');
    expect(await core('Bap', '93.0')).toBe('fine');
  });

  it('lets the others leave by rule, still off line, and says why the bloomers wait', async () => {
    await at('05:18');
    for (const product of ['White tin 800 g', 'Bloomer 400 g', 'Bap']) await countOut(product);
    for (const product of ['White tin 800 g', 'Bap']) {
      await place('Today');
      await main().getByRole('link', { name: new RegExp(`^${product} ×.*6`) }).last().click();
      await tap('Let it go');
      await page.getByText('free to leave').waitFor();
    }
    await place('Today');
    await picture('today');
    await main().getByRole('link', { name: /^Bloomer 400 g ×.*6/ }).last().click();
    await page.getByText('It waits for this').waitFor();
    await picture('waits');
  });

  it('frees the bloomers once the core is 94.4 °C', async () => {
    await at('05:20');
    await out('Bloomer', 'Bottom deck');
    await tap('Read core temperature again');
    await typeOnPad(page, '94.4');
    await tap(/^Record/);
    await page.locator('.verdict').waitFor();
    expect(await verdict()).toBe('fine');
    await picture('within');
    await place('Today');
    await main().getByRole('link', { name: /^Bloomer 400 g ×.*6/ }).last().click();
    await tap('Let it go');
    await page.getByText('free to leave').waitFor();
  });

  it('starts again without a network and still has everything', async () => {
    await page.goto('/table');
    await heading('Today’s bake').waitFor();
    expect(await strip()).toContain('waiting to be sent');
    expect(await main().getByText('free to leave').count()).toBe(3);
    await place('Lately');
    await picture('lately');
  });

  it('is back on line: the server agrees, and nothing is there twice', async () => {
    await at('05:52');
    await context.setOffline(false);
    await page.getByText('all sent').waitFor();
    const lead = await signOn(t, night.house.organisation, night.lead.person, night.lead.pin); // hours have passed since she signed on
    const { body } = await lead.get(`/sites/${night.house.site}/night?day=2026-11-25`).expect(200);
    const count = (name: string): number => body.rows[name].length;
    expect({ makes: count('make'), loads: count('load'), readings: count('reading'), batches: count('batch'), releases: count('release'), runs: count('run') })
      .toEqual({ makes: 1, loads: 5, readings: 7, batches: 3, releases: 3, runs: 3 });
    const held = body.rows.deviation.filter((d: { class: string }) => d.class === 'must');
    expect(held).toHaveLength(1);
    expect(body.rows.reading.filter((r: { subject: string }) => r.subject === held[0].subject).map((r: { figure: string; verdict: string }) => [r.figure, r.verdict]).sort())
      .toEqual([['87.9', 'outside'], ['94.4', 'within']]);
    expect(await strip()).not.toContain('to look at');
    await place('Today');
    await picture('after');
  });
});
