import { expect } from '@jest/globals';
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import type { TestApp } from '../support/app.js';
import type { FullHouse } from '../support/full-house.js';
import { lookedOver } from './_looked-over.js';
import { typeOnPad } from './_page.js';

/** A page of one browser, with what it asked the service and got no answer to yet. */
export class Looking {
  /** Every address that was looked at. */
  static readonly seen: string[] = [];

  private readonly asked = new Set<unknown>();
  private constructor(
    readonly page: Page,
    private readonly house: FullHouse,
  ) {
    page.on('request', (r) => r.url().includes('/api/') && r.resourceType() !== 'eventsource' && this.asked.add(r));
    page.on('requestfinished', (r) => this.asked.delete(r));
    page.on('requestfailed', (r) => this.asked.delete(r));
  }

  static async begin(browser: Browser, t: TestApp, house: FullHouse): Promise<Looking> {
    const { port } = t.server.address() as AddressInfo; // it listens on a port
    const context = await browser.newContext({ baseURL: `http://127.0.0.1:${port}`, hasTouch: true, serviceWorkers: 'block' });
    context.setDefaultTimeout(30_000);
    await context.clock.install({ time: t.clock.now() });
    return new Looking(await context.newPage(), house);
  }

  async signOn(path: string, role: string, name: string): Promise<void> {
    await this.page.goto(path);
    await this.page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
    await typeOnPad(this.page, this.house.caller(role).pin);
    await this.page.getByRole('button', { name: 'Go on' }).click();
    await this.page.locator('.bar').waitFor();
    await this.there();
  }

  /** Goes there inside the app, as a tapped link does. */
  async to(path: string): Promise<void> {
    await this.page.evaluate((to) => {
      document.querySelector('main')?.setAttribute('data-was', '');
      history.pushState(null, '', to);
    }, path);
    await this.there();
    expect(await this.page.evaluate(() => location.pathname)).toBe(new URL(path, 'http://x').pathname);
  }

  async there(): Promise<void> {
    await this.page.locator('main:not([data-was]) h1').waitFor();
    do await this.page.locator('.loading').first().waitFor({ state: 'detached' });
    while (this.asked.size > 0);
  }

  async everyOne(pages: Readonly<Record<string, string>>): Promise<string[]> {
    const found: string[] = [];
    for (const [name, at] of Object.entries(pages)) {
      await this.to(at);
      Looking.seen.push(at);
      found.push(...(await lookedOver(this.page)).map((what) => `${name}: ${what}`));
    }
    return found;
  }
}
