import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { builtPages, openBrowser, keepPicture, tabletPage, typeOnPad } from './_page.js';

let t: TestApp;
let house: House;
let baker: Caller;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  t = await startTestApp({ webFolder: builtPages() });
  await t.app.listen(0, '127.0.0.1');
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
  await record(6);
  browser = await openBrowser();
  page = await tabletPage(browser, t);
});
afterAll(async () => {
  await browser?.close();
  await t?.close();
});

const record = (n: number) => house.recordReadings(n, baker);
interface Head {
  readonly size: number;
  readonly frontier: string[];
}
const query = async <R extends object>(sql: string, values: unknown[]): Promise<R[]> =>
  connected(t.database.ownerUrl, async (owner) => (await owner.query<R>(sql, values)).rows);
const head = async (): Promise<Head | undefined> => (await query<Head>('SELECT size, frontier FROM book WHERE id = $1', [house.site]))[0];
const put = (of: Head | undefined) => query('UPDATE book SET size = $2, frontier = $3 WHERE id = $1', [house.site, of?.size, of?.frontier]);
const says = () => page.getByRole('alert').filter({ hasText: 'do not go on from what this tablet saw on Wed 25 Nov' });
/** The tablet's store holds a head of the site's book of that size. */
const remembers = (size: number | undefined) =>
  page.waitForFunction(
    ([book, line]) =>
      new Promise<boolean>((resolve) => {
        const opening = indexedDB.open('bakehouse');
        opening.onsuccess = () => {
          const asked = opening.result.transaction('kept').objectStore('kept').get(`head ${book}`);
          asked.onsuccess = () => {
            opening.result.close();
            resolve(JSON.stringify(asked.result ?? null).includes(line ?? ''));
          };
        };
      }),
    [house.site, `\\n${size}\\n`],
  );
/** The page asks anew when it is opened. */
const asks = async (): Promise<void> => {
  const answered = page.waitForResponse(/signed-heads\?site=\d+/);
  await page.reload();
  await answered;
};

describe('a tablet at a service whose records do not go on', () => {
  it('says so in plain words, goes on recording, tells the administrator, and goes on when an administrator has found out why', async () => {
    await page.goto('/table');
    await page.getByRole('button', { name: /^Ada Min/ }).click();
    const first = page.waitForResponse(/signed-heads/);
    await typeOnPad(page, house.administrator.pin);
    await page.getByRole('button', { name: 'Go on' }).click();
    await first;
    const before = await head();
    await remembers(before?.size);
    await record(4);
    await asks();
    await remembers((before?.size ?? 0) + 4);
    expect(await says().count()).toBe(0);
    await put(before); // as a backup of before would be
    await asks();
    await says().getByText('There are fewer records now than this tablet saw then.').waitFor();
    await says().getByText('The administrator was told.').waitFor();
    await keepPicture(page, 'does-not-go-on', { fullPage: false });
    await page.goto('/office/people');
    await page.getByRole('alert').getByText('The records of this house do not go on from what a tablet saw').waitFor();
    await keepPicture(page, 'office', { fullPage: false });
    await page.goto('/table');
    await says().getByRole('button', { name: 'It is known why: go on from the records as they are now' }).click();
    await says().waitFor({ state: 'detached' });
    await asks();
    await remembers(before?.size);
    expect(await says().count()).toBe(0);
  });
});
