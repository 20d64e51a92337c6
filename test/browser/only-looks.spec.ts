import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { snapshotOf } from '@bakehouse/records';
import type { Browser } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { at } from '../support/bakehouse.js';
import { FullHouse } from '../support/full-house.js';
import { RunningClock } from '../support/running-clock.js';
import { officePages, tablePages, type Found } from './_every-page.js';
import { Looking } from './_looking.js';
import { builtPages, openBrowser } from './_page.js';

let t: TestApp;
let browser: Browser;
let of: Found;
let recall: string;
let viewer: Looking;

beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T03:40:00Z'), webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  const house = await FullHouse.found(t, 'Mill Lane');
  const { b } = house;
  const everything = async () => snapshotOf((await house.caller('everybody').get(`/sites/${b.site}/night`).expect(200)).body.rows);
  const run = (await everything()).run[0]?.id ?? '';
  const begun = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: '2026-11-25', setting: null };
  await b.baker.record('load-in', { ...begun, minutes: 30, lines: [{ run, pieces: 1 }] }, { at: at('03:30') });
  const wanted = new Set(['lot-opened', 'weighed-in', 'put-on-counter']);
  for (const sample of house.samples()) if (wanted.has(sample.kind)) await b.baker.send([b.house.rawEntry(sample)]);
  of = { house, rows: await everything() };
  const { body } = await house.caller('everybody').get('/recalls').expect(200);
  recall = String(body.recalls?.[0]?.id ?? body[0]?.id);
  browser = await openBrowser();
  viewer = await signedOn('viewer', 'The viewer', '/table/recent');
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

async function signedOn(role: string, name: string, path: string): Promise<Looking> {
  const one = await Looking.begin(browser, t, of.house);
  await one.page.setViewportSize({ width: 1024, height: 768 }); // where what is opened from a list is a page of its own
  await one.signOn(path, role, name);
  return one;
}

/** What somebody who only looks may tap: ways to look at something else, to print it, to close it. */
const toLook =
  /^(Find .*|Open the case|The picture \(SVG\)|Set-up|This site|Probes|Counter|In stock|Bins and tubs|The day’s sheet, to print|Send out|Print.*|Show .*|Earlier days|Later days|Up to today|Up to|Other days|Close|All of it to print \(PDF\)|The sealed records|The page that checks them|Smaller picture|Larger picture|Save .*|The case|The deviation|The batch.*|What was counted out of it|Take this key.*|Materials|Suppliers and customers|Places and probes|Columns|Export.*|Understood|Today’s bake|The other batch|Search)$/;
/** And it is a link to look at a lot, by the name of the lot; and a sum that is worked out on the page alone. */
const aLot = /\/(lot|batch|run|make|load)\//;
const aSum = /^(Mixer|Flour|Room|Water from the tap|Dough wanted, if not the middle|Dough, if not as written|Which line is the water) \|/;

const keysOf = (): Promise<string[]> =>
  viewer.page
    .locator('main')
    .evaluate((main) =>
      [
        ...main.querySelectorAll<HTMLElement>(
          '.button, button.tile, a.tile, button.row, .pad, .when-who, input:not([type=radio]), textarea, select',
        ),
      ]
        .filter((e) => e.checkVisibility())
        .map(
          (e) =>
            `${(e.getAttribute('aria-label') ?? (e instanceof HTMLInputElement || e instanceof HTMLSelectElement || e instanceof HTMLTextAreaElement ? e.labels?.[0]?.textContent : undefined) ?? e.textContent).trim()} | ${e.getAttribute('href') ?? e.tagName}`,
        ),
    );

async function offered(pages: Readonly<Record<string, string>>): Promise<Record<string, string[]>> {
  const found: Record<string, string[]> = {};
  for (const [name, to] of Object.entries(pages)) {
    await viewer.to(to);
    const keys = (await keysOf()).filter((k) => !toLook.test(k.split(' | ')[0] ?? '') && !aLot.test(k) && !aSum.test(k));
    if (keys.length > 0) found[name] = keys;
  }
  return found;
}

describe('somebody who may only look', () => {
  it('is offered nothing at the table but to look', async () => {
    expect(await offered(tablePages(of))).toEqual({});
  });

  it('is offered nothing in the office but to look', async () => {
    viewer = await signedOn('viewer', 'The viewer', '/office/plan');
    expect(await offered(officePages(of, recall, of.house.caller('everybody').person))).toEqual({});
  });

  it('is told who may, where something is not offered, and where its address is opened all the same', async () => {
    const says = async (to: string): Promise<string | null> => {
      await viewer.to(to);
      return viewer.page.locator('.who-may').first().textContent();
    };
    expect(await says('/office/bake')).toMatch(/Only a baker, a manager or a food-safety lead may record/);
    expect(await says((tablePages(of)['read'] ?? '').replace('/table', '/office/bake'))).toMatch(
      /a baker, a manager or a food-safety lead/,
    );
    expect(await viewer.page.locator('.pad').count()).toBe(0);
    expect(await says('/office/plan')).toMatch(/Only a food-safety lead may write and approve plans/);
  });

  it('and nobody else misses anything that is theirs', async () => {
    const missing: string[] = [];
    const pages = { '/table/recent': tablePages(of), '/office/plan': officePages(of, recall, of.house.caller('everybody').person) };
    for (const [first, all] of Object.entries(pages)) {
      const everybody = await signedOn('everybody', 'Ev Rybody', first);
      for (const to of Object.values(all)) {
        await everybody.to(to);
        if ((await everybody.page.locator('.who-may').count()) > 0) missing.push(to);
      }
    }
    expect(missing).toEqual([]);
  });
});
