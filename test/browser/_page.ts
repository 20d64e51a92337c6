import type { AddressInfo } from 'node:net';
import path from 'node:path';
import chromium from '@sparticuz/chromium';
import { chromium as playwright, type Browser, type Page } from 'playwright-core';
import type { TestApp } from '../support/app.js';

/** The web app as it stands, built once for the run. */
export function builtPages(): string {
  const folder = process.env['BAKEHOUSE_TEST_PAGES'];
  if (folder === undefined) throw new Error('the pages are built by the browser project’s set-up');
  return folder;
}

/** The browser that comes with the tests, or the one that is named. Its package's own arguments turn web security off: they are not used. */
export async function openBrowser(): Promise<Browser> {
  return playwright.launch({
    executablePath: process.env['CHROME_PATH'] ?? (await chromium.executablePath()),
    headless: true,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** A tablet's page at a service that listens, by the service's clock; each request carries these headers. */
export async function tabletPage(
  browser: Browser,
  { server, clock }: Pick<TestApp, 'server' | 'clock'>,
  headers: Record<string, string> = {},
): Promise<Page> {
  const { port } = server.address() as AddressInfo; // it listens on a port
  const context = await browser.newContext({
    viewport: { width: 800, height: 1280 },
    hasTouch: true,
    serviceWorkers: 'block',
    baseURL: `http://127.0.0.1:${port}`,
    extraHTTPHeaders: headers,
  });
  context.setDefaultTimeout(30_000);
  await context.clock.install({ time: clock.now() });
  return context.newPage();
}

/** Where pictures are put, to be looked at: in the folder that PICTURES names. Without it none is taken, since each costs as much as a step of a test. */
const pictures = process.env['PICTURES'];

export async function keepPicture(page: Page, name: string, { fullPage = true }: { readonly fullPage?: boolean } = {}): Promise<void> {
  if (pictures) await page.screenshot({ path: path.join(pictures, `${name}.png`), fullPage });
}

/** Does what makes a record and waits until the service has it: “all sent” stands there before, too, and a page that is left at once keeps nothing. */
export async function untilSent(page: Page, act: () => Promise<void>): Promise<void> {
  const sent = page.waitForResponse((r) => r.url().endsWith('/entries') && r.ok());
  await act();
  await sent;
  await page.locator('.strip-state').getByText('all sent').waitFor();
}

/** Types a figure on the pad by tapping its keys, as a finger does. */
export async function typeOnPad(page: Page, figure: string): Promise<void> {
  const pad = page.locator('.pad').last();
  const keys: Readonly<Record<string, string>> = { '.': 'point' };
  for (const digit of figure) await pad.getByRole('button', { name: keys[digit] ?? digit, exact: true }).click();
}

/** Empties the pad, then types. */
export async function retypeOnPad(page: Page, figure: string): Promise<void> {
  const field = page.locator('.pad-line input').last();
  const back = page.getByRole('button', { name: 'take back the last figure' }).last();
  for (let left = (await field.inputValue()).length; left > 0; left -= 1) await back.click();
  await typeOnPad(page, figure);
}
