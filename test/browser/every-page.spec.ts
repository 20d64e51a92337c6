import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { snapshotOf } from '@bakehouse/records';
import type { Browser } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at } from '../support/bakehouse.js';
import { FullHouse } from '../support/full-house.js';
import { Hand } from '../support/hand.js';
import { RunningClock } from '../support/running-clock.js';
import { officePages, tablePages, type Found } from './_every-page.js';
import { lookedOver, sizes } from './_looked-over.js';
import { Looking } from './_looking.js';
import { builtPages, openBrowser } from './_page.js';

let t: TestApp;
let browser: Browser;
let of: Found;
let recall: string;

beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T03:40:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  const house = await FullHouse.found(t, 'Mill Lane');
  const { b } = house;
  const begun = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: '2026-11-25', setting: null };
  const day = snapshotOf((await house.caller('everybody').get(`/sites/${b.site}/night`).expect(200)).body.rows);
  const run = day.run[0]?.id ?? '';
  // overdue, soon due, and running
  for (const time of ['03:00', '03:11', '03:30'])
    await b.baker.record('load-in', { ...begun, minutes: 30, lines: [{ run, pieces: 1 }] }, { at: at(time) });
  const wanted = new Set([
    'lot-opened',
    'weighed-in',
    'mixed',
    'instrument-checked',
    'sent-out',
    'goods-returned',
    'put-on-counter',
    'cleaned-down',
  ]);
  for (const sample of house.samples()) if (wanted.has(sample.kind)) await b.baker.send([b.house.rawEntry(sample)]);
  const authority = { name: 'District food office', phone: '01632 960190', outOfHours: '01632 960191' };
  await new Hand(b.house, b.house.administrator).record('site-described', { registration: 'FB 10442', authority });
  const rows = snapshotOf((await house.caller('everybody').get(`/sites/${b.site}/night`).expect(200)).body.rows);
  of = { house, rows };
  const { body } = await house.caller('everybody').get('/recalls').expect(200);
  recall = String(body.recalls?.[0]?.id ?? body[0]?.id);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

describe('every page', () => {
  it('of sign-on', async () => {
    const { page } = await Looking.begin(browser, t, of.house);
    await page.goto('/table');
    await page.getByRole('button', { name: /^Ev Rybody/ }).waitFor();
    const names = await lookedOver(page);
    await page.getByText('Make this one of the bakehouse’s tablets').click();
    const enrol = await lookedOver(page);
    await page.getByRole('button', { name: /^Ev Rybody/ }).click();
    await page.locator('dialog .pad').waitFor();
    expect([...names, ...enrol, ...(await lookedOver(page))]).toEqual([]);
  });

  it('of the table', async () => {
    const looking = await Looking.begin(browser, t, of.house);
    await looking.signOn('/table/recent', 'everybody', 'Ev Rybody');
    expect(await looking.everyOne(tablePages(of))).toEqual([]);
  });

  it('of the office', async () => {
    const looking = await Looking.begin(browser, t, of.house);
    await looking.signOn('/office/plan', 'everybody', 'Ev Rybody');
    expect(await looking.everyOne(officePages(of, recall, of.house.caller('everybody').person))).toEqual([]);
  });

  it('of an inspector', async () => {
    const looking = await Looking.begin(browser, t, of.house);
    await looking.signOn('/inspector', 'inspector', 'The inspector');
    const access = await lookedOver(looking.page);
    await looking.page.getByRole('button', { name: /^Mill Lane/ }).click();
    await looking.page.getByRole('heading', { level: 1, name: 'For the officer' }).waitFor();
    await looking.there();
    expect([...access, ...(await lookedOver(looking.page))]).toEqual([]);
  });

  it('of the counter', async () => {
    const looking = await Looking.begin(browser, t, of.house);
    await looking.page.goto('/counter');
    await looking.there();
    const found = await lookedOver(looking.page);
    expect([...found, ...(await looking.everyOne({ site: `/counter/${of.house.b.site}` }))]).toEqual([]);
  });
});

/** Runs in the page: what has the focus and cannot be seen, since something that stays lies over it. Each is reached from below and from above. */
function hiddenFocus(): string[] {
  const all = [...document.querySelectorAll<HTMLElement>('main a[href], main button, main input, main summary')].filter(
    (e) => e.checkVisibility() && !e.matches(':disabled'),
  );
  return [...all.toReversed(), ...all].flatMap((e) => {
    e.focus();
    const { left, top, width, height } = e.getBoundingClientRect();
    const [x, ys] = [left + width / 2, [top + 1, top + height / 2, top + height - 1]];
    const over = ys.map((y) => document.elementFromPoint(x, y)?.closest('.always, .places')).find(Boolean);
    return over ? [`${over.className} lies over “${e.textContent.slice(0, 40)}”`] : [];
  });
}

describe('what stays on top', () => {
  it('takes at most half of a screen with six timers, however large the page is made, and never lies over what has the focus', async () => {
    const looking = await Looking.begin(browser, t, of.house);
    await looking.signOn('/table/recent', 'everybody', 'Ev Rybody');
    expect(await looking.page.locator('.timer').count()).toBe(6);
    const found: string[] = [];
    // each as it is and with the page made twice as large, which halves what a screen holds
    for (const { width, height } of sizes.flatMap((s) => [s, { width: Math.max(320, s.width / 2), height: s.height / 2 }])) {
      await looking.page.setViewportSize({ width, height });
      const [sticky, tall, wide] = await looking.page.evaluate(() => {
        const top = document.querySelector('.always');
        return [top !== null && getComputedStyle(top).position === 'sticky', top?.clientHeight ?? 0, document.documentElement.scrollWidth];
      });
      const size = `${width}×${height}`;
      if (wide > width) found.push(`${size}: ${wide} px wide`);
      if (sticky && tall > height / 2) found.push(`${size}: ${tall} px of what stays`);
      if (sticky && height < 480) found.push(`${size}: it stays on a low screen`);
      found.push(...(await looking.page.evaluate(hiddenFocus)).map((what) => `${size}: ${what}`));
    }
    expect(found).toEqual([]);
  });
});

describe('no page is forgotten', () => {
  it('has been at an address of every route in the code', () => {
    const folder = path.resolve(import.meta.dirname, '../../apps/web/src');
    const routes = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.tsx'))
      .flatMap((file) => [...readFileSync(path.join(folder, file), 'utf8').matchAll(/<Route path="([^"]+)"/g)].map(([, at = '']) => at));
    expect(routes.length).toBeGreaterThan(20);
    const pattern = (route: string): RegExp => new RegExp(`^${route.replaceAll(/\/:\w+\?/g, '(?:/[^/]+)?').replaceAll(/:\w+/g, '[^/]+')}$`);
    expect(routes.filter((route) => !Looking.seen.some((at) => pattern(route).test(at)))).toEqual([]);
  });
});
