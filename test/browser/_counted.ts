import type { Browser, Page } from 'playwright-core';
import type { TestApp } from '../support/app.js';
import { tabletPage } from './_page.js';

/** What a hand does, counted in the page itself. */
export interface Hand {
  taps: number;
  typed: number;
}

/** A browser of its own, in which every touch is counted. */
export async function countedPage(browser: Browser, t: TestApp, hand: Hand): Promise<Page> {
  const page = await tabletPage(browser, t);
  await page.exposeFunction('touched', () => (hand.taps += 1));
  await page.addInitScript("addEventListener('pointerdown', (e) => { if (e.isTrusted) void window.touched(); }, true)");
  return page;
}
